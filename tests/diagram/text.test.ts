import { expect, test } from 'vitest';
import { textWidth, wrap } from '../../src/diagram/index.ts';

test('a text is as wide as its letters, and one not in the face is reckoned with', () => {
  const widths = ['c', 'a', 'l', 'l', ' ', 'f'].map((letter) => textWidth(letter, 10));
  expect(textWidth('call f', 10)).toBeCloseTo(
    widths.reduce((sum, width) => sum + width, 0),
    9,
  );
  expect(textWidth('W3', 20)).toBeCloseTo(2 * textWidth('W3', 10), 9);
  expect(textWidth('W3', 20, true)).toBeGreaterThan(textWidth('W3', 20));
  expect(textWidth('\u4e00', 10)).toBeGreaterThan(0);
});

test('lines break after spaces, hyphens and solidi, and keep what belongs together', () => {
  expect(wrap('fan and gas valve', 10, 50)).toEqual(['fan and', 'gas valve']);
  expect(wrap('extra-low-voltage', 10, 40)).toEqual(['extra-', 'low-', 'voltage']);
  expect(wrap('supply, TN-C-S', 10, 40)).toEqual(['supply,', 'TN-C-S']);
  expect(wrap('fuse, 3\u00a0A', 10, 24)).toEqual(['fuse,', '3\u00a0A']);
});

test('every line fits unless one word alone does not', () => {
  const text = 'hot water on, from the programmer to the cylinder thermostat';
  for (let width = 20; width < 320; width += 7) {
    const lines = wrap(text, 11.5, width);
    expect(lines.join(' ')).toBe(text);
    for (const line of lines) {
      expect(textWidth(line, 11.5) <= width || !line.includes(' ')).toBe(true);
    }
  }
});

test('nothing breaks into no lines', () => {
  expect(wrap('', 10, 50)).toEqual([]);
});
