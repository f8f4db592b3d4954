import { expect, test } from 'vitest';
import { textWidth, wrap } from '../../src/diagram/index.ts';

test('a text is as wide as its letters (Helvetica widths, from memory)', () => {
  expect(textWidth('call feed', 10)).toBeCloseTo(
    10 * (0.5 + 0.556 + 2 * 0.222 + 0.278 + 0.278 + 3 * 0.556),
    9,
  );
  expect(textWidth('W3', 20)).toBeCloseTo(20 * (0.944 + 0.556), 9);
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
