import { expect, test } from 'vitest';
import { wholeWords } from '../../src/components/text/whole.ts';

const whole = (text: string) =>
  wholeWords(text).flatMap((piece) => (piece.isWhole ? piece.text : []));

test('hyphened words of a title stay whole, as long as a line with large letters holds them', () => {
  expect(whole('Heat-only boiler, two-port valves')).toEqual(['Heat-only', 'two-port']);
  expect(whole('Room stat, wired')).toEqual([]);
  expect(whole('Extra-low-voltage receiver')).toEqual([]);
  expect(whole('Three-port mid-position valve')).toEqual(['Three-port', 'mid-position']);
});

test.each(['', 'Two-wire', 'a - b', '-x', 'x-', 'Heat-only boiler: two-port, R1 + R2'])(
  'the text is as it was: “%s”',
  (text) => {
    expect(
      wholeWords(text)
        .map((piece) => piece.text)
        .join(''),
    ).toBe(text);
  },
);
