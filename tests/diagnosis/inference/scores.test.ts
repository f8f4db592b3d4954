import { expect, test } from 'vitest';
import { brier, deciles, decomposed, logScore, type Stated, wilson } from '../../support/scores.ts';

const stated = (share: number, hits: number, count: number): Stated[] =>
  Array.from({ length: count }, (_, i) => ({ share, right: i < hits }));

// Derived by Murphy 1973: ten at 0.8 with 7 hits and ten at 0.3 with 3.
test('a Brier score is its reliability, less its resolution, plus its uncertainty', () => {
  const all = [...stated(0.8, 7, 10), ...stated(0.3, 3, 10)];
  expect(brier(all)).toBeCloseTo(0.215, 12);
  const { reliability, resolution, uncertainty } = decomposed(all);
  expect([reliability, resolution, uncertainty].map((part) => part.toFixed(3))).toEqual([
    '0.005',
    '0.040',
    '0.250',
  ]);
  expect(reliability - resolution + uncertainty).toBeCloseTo(0.215, 12);
});

test('the log score of 0.7 and of 0.2 for what was so', () => {
  expect(logScore(stated(0.7, 1, 1))).toBeCloseTo(0.3567, 4);
  expect(logScore(stated(0.2, 1, 1))).toBeCloseTo(1.6094, 4);
});

test('both scores are least where what is stated is so that often', () => {
  const at = (share: number) => stated(share, 7, 10);
  for (const share of [0.1, 0.5, 0.6, 0.8, 0.95]) {
    expect(brier(at(0.7))).toBeLessThan(brier(at(share)));
    expect(logScore(at(0.7))).toBeLessThan(logScore(at(share)));
  }
});

// Newcombe, Statistics in Medicine 17 (1998), table I, score method: from memory.
test.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])('%i of %i lie between %d and %d', (hits, count, low, high) => {
  const [from, to] = wilson(hits, count);
  expect(from).toBeCloseTo(low, 4);
  expect(to).toBeCloseTo(high, 4);
});

test('tenths hold what was stated in them', () => {
  const all = [...stated(0.95, 18, 20), ...stated(1, 1, 1), ...stated(0.42, 2, 5)];
  expect(deciles(all).map(({ tenth, count, right }) => [tenth, count, right])).toEqual([
    [4, 5, 0.4],
    [9, 21, 19 / 21],
  ]);
});
