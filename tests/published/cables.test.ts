import { describe, expect, it } from 'vitest';
import {
  CONDUCTOR_OHMS_PER_KM,
  type ConductorSize,
  FLEX_AMBIENT_FACTORS,
  FLEX_RATINGS,
  SINGLE_CORE_RATINGS,
  SINGLE_CORE_SOURCE,
  TWIN_AND_EARTH_RATINGS,
} from '../../src/published/index.ts';

/** Rows of size in mm², capacity in A, millivolts per ampere and metre. */
const rows = (table: Readonly<Record<number, { amps: number; millivolts: number }>>) =>
  Object.entries(table).map(([size, { amps, millivolts }]) => [Number(size), amps, millivolts]);

describe('ratings of cables', () => {
  it('flexible cord, 60 °C, single phase (BS 7671 Tables 4F3A and 4F3B)', () => {
    // The tables' 1.25 mm² is no IEC 60228 size, and no entry can name it.
    expect(rows(FLEX_RATINGS).sort(bySize)).toEqual([
      [0.5, 3, 93],
      [0.75, 6, 62],
      [1, 10, 46],
      [1.5, 16, 32],
      [2.5, 25, 19],
      [4, 32, 12],
    ]);
  });

  it('flat twin and earth, method C (BS 7671 Table 4D5)', () => {
    expect(rows(TWIN_AND_EARTH_RATINGS).sort(bySize)).toEqual([
      [1, 16, 44],
      [1.5, 20, 29],
      [2.5, 27, 18],
      [4, 37, 11],
    ]);
  });

  it('single cores, method B (BS 7671 Tables 4D1A, from memory, and 4D1B)', () => {
    expect(rows(SINGLE_CORE_RATINGS).sort(bySize)).toEqual([
      [1, 13.5, 44],
      [1.5, 17.5, 29],
      [2.5, 24, 18],
      [4, 32, 11],
    ]);
    expect(SINGLE_CORE_SOURCE.standing).toBe('from memory');
  });

  it('share left in a warm place (BS 7671 Table 4F3A, ambient factors)', () => {
    expect(FLEX_AMBIENT_FACTORS).toEqual({
      30: 1,
      35: 0.91,
      40: 0.82,
      45: 0.71,
      50: 0.58,
      55: 0.41,
    });
  });

  it.each([
    // Table ÷ [2 R20 (1 + 0.00393 (T − 20))] (derived bounds): catches a mistyped digit.
    ['flexible', FLEX_RATINGS, 60, 1.019, 1.048],
    ['solid', TWIN_AND_EARTH_RATINGS, 70, 0.997, 1.016],
    ['solid', SINGLE_CORE_RATINGS, 70, 0.997, 1.016],
  ] as const)('%s: volt drop fits IEC 60228', (conductorClass, table, temperature, low, high) => {
    for (const [size, , millivolts] of rows(table)) {
      const r20 = CONDUCTOR_OHMS_PER_KM[conductorClass][size as ConductorSize];
      const ratio = millivolts! / (2 * r20 * (1 + 0.00393 * (temperature - 20)));
      expect(ratio, `${size} mm²`).toBeGreaterThan(low - 0.0005);
      expect(ratio, `${size} mm²`).toBeLessThan(high + 0.0005);
    }
  });

  it('thicker cables carry more and lose less', () => {
    for (const table of [FLEX_RATINGS, TWIN_AND_EARTH_RATINGS, SINGLE_CORE_RATINGS]) {
      const sorted = rows(table).sort(bySize);
      for (const [i, [, amps, millivolts]] of sorted.entries()) {
        const next = sorted[i + 1];
        if (!next) continue;
        expect(next[1]).toBeGreaterThan(amps!);
        expect(next[2]).toBeLessThan(millivolts!);
      }
    }
  });
});

const bySize = (a: readonly number[], b: readonly number[]) => a[0]! - b[0]!;
