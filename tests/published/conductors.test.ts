import { describe, expect, it } from 'vitest';
import { resistanceBetween, settleMode } from '../../src/circuit/index.ts';
import {
  CONDUCTOR_OHMS_PER_KM,
  CONDUCTOR_SIZES,
  type ConductorClass,
  type ConductorSize,
  ohmsPerMetre,
  temperatureFactor,
} from '../../src/published/index.ts';
import { celsius } from '../../src/units/index.ts';
import { circuit } from '../support/notation.ts';

/**
 * IEC 60228, greatest resistance at 20 °C, plain copper, Ω/km, typed anew from the standard's
 * tables: class 1 (Table 1), class 5 (Table 3).
 */
const IEC_60228: readonly (readonly [mm2: ConductorSize, solid: number, flexible: number])[] = [
  [0.5, 36.0, 39.0],
  [0.75, 24.5, 26.0],
  [1, 18.1, 19.5],
  [1.5, 12.1, 13.3],
  [2.5, 7.41, 7.98],
  [4, 4.61, 4.95],
];

describe('IEC 60228 resistances', () => {
  it.each(IEC_60228)('%s mm²: class 1 %s, class 5 %s Ω/km', (size, solid, flexible) => {
    expect(CONDUCTOR_OHMS_PER_KM.solid[size]).toBe(solid);
    expect(CONDUCTOR_OHMS_PER_KM.flexible[size]).toBe(flexible);
    expect(ohmsPerMetre('solid', size, celsius(20))).toBeCloseTo(solid / 1000, 12);
    expect(ohmsPerMetre('flexible', size, celsius(20))).toBeCloseTo(flexible / 1000, 12);
  });

  it('has every size the table here has, and no other', () => {
    expect(CONDUCTOR_SIZES).toEqual(IEC_60228.map(([size]) => size));
  });

  it.each(['solid', 'flexible'] as const)('falls as size rises, %s', (conductorClass) => {
    const ohms = CONDUCTOR_SIZES.map((size) => CONDUCTOR_OHMS_PER_KM[conductorClass][size]);
    expect(ohms).toEqual([...ohms].sort((a, b) => b - a));
  });
});

describe('IEC 60228 correction to 20 °C', () => {
  // Table of correction factors, whose last digit is rounded otherwise than the formula's.
  it.each([
    [5, 1.064],
    [10, 1.042],
    [20, 1],
    [25, 0.98],
    [40, 0.926],
    [70, 0.833],
  ])('%s °C: %s', (temperature, factor) => {
    expect(Math.abs(temperatureFactor(celsius(temperature)) - factor)).toBeLessThan(0.003);
  });

  it('makes a warm conductor dearer, by copper’s 0.00393 a kelvin (IEC 60228)', () => {
    const rise = ohmsPerMetre('solid', 1, celsius(70)) / ohmsPerMetre('solid', 1, celsius(20));
    expect(rise).toBeCloseTo(1 + 0.00393 * 50, 3);
  });
});

describe('BS 7671 volt drop tables against IEC 60228', () => {
  // mV/A/m = 2 × resistance at the conductor's greatest temperature; the tables round up a
  // little (derived bounds). BS 7671 Table 4F3B, flexible cord at 60 °C; 4D5 (seen as the
  // identical column of 4D1B), flat twin and earth at 70 °C.
  const within = (
    conductorClass: ConductorClass,
    temperature: number,
    table: readonly (readonly [ConductorSize, number])[],
    [low, high]: readonly [number, number],
  ): void => {
    for (const [size, milliVolts] of table) {
      const ohms = ohmsPerMetre(conductorClass, size, celsius(temperature));
      const ratio = milliVolts / (2000 * ohms);
      expect(ratio, `${size} mm²`).toBeGreaterThan(low);
      expect(ratio, `${size} mm²`).toBeLessThan(high);
    }
  };

  it('flexible cord', () => {
    const table = [
      [0.5, 93],
      [0.75, 62],
      [1, 46],
      [1.5, 32],
      [2.5, 19],
      [4, 12],
    ] as const;
    within('flexible', 60, table, [1.01, 1.06]);
  });

  it('flat twin and earth', () => {
    const table = [
      [1, 44],
      [1.5, 29],
      [2.5, 18],
      [4, 11],
    ] as const;
    within('solid', 70, table, [0.99, 1.03]);
  });
});

describe('R1 + R2 of a run of twin and earth, as a continuity test reads it', () => {
  // mΩ/m at 20 °C: Locke, Guide to the IET Wiring Regulations, Appendix 4.
  it.each([
    ['1', '1', 36.2],
    ['1.5', '1', 30.2],
    ['2.5', '1.5', 19.51],
    ['4', '1.5', 16.71],
  ])('%s with %s mm²: %s mΩ/m', (line, earth, milliohms) => {
    const metres = 25;
    const network = circuit(`
      A1 here: resistor L N { ohms: 1e6 }
      W1: twin and earth ${line}/${earth} ${metres}; BN A1.L B1.L; GNYE A1.E B1.E
      link B1.L B1.E`);
    const { solution } = settleMode(network, 'dead', {});
    const both = resistanceBetween(solution, 'A1.L', 'A1.E');
    // As on site: what the link itself shows is taken off first.
    const link = resistanceBetween(solution, 'B1.L', 'B1.E');
    expect(both - link).toBeCloseTo((milliohms * metres) / 1000, 8);
  });

  it('reads the line conductor alone from end to end', () => {
    const network = circuit(`
      A1 here: resistor L N { ohms: 1e6 }
      W1: twin and earth 1 40; BN A1.L B1.L; BU A1.N B1.N; GNYE A1.E B1.E`);
    const { solution } = settleMode(network, 'dead', {});
    // 18.1 Ω/km (IEC 60228).
    expect(resistanceBetween(solution, 'A1.L', 'B1.L')).toBeCloseTo(0.0181 * 40, 8);
  });

  it('reads a break as open, by insulation alone', () => {
    const network = circuit(`
      A1 here: resistor L N { ohms: 1e6 }
      W1: twin and earth 1 40; BN A1.L B1.L; GNYE A1.E B1.E`);
    const { solution } = settleMode(network, 'dead', {});
    expect(resistanceBetween(solution, 'A1.L', 'A1.E')).toBeGreaterThan(1e6);
  });
});
