import { describe, expect, it } from 'vitest';
import {
  CLASS_LIMITS,
  classOf,
  impedanceBetween,
  isExtraLow,
  magnitude,
  nodeOf,
  read,
  settleMode,
} from '../../src/circuit/index.ts';
import {
  EXTERNAL_LOOP_OHMS,
  EXTRA_LOW_LIMITS,
  NOMINAL_VOLTS,
  STATUTORY_LIMITS,
  SUPPLY_HERTZ,
  VOLT_DROP_LIMIT,
} from '../../src/published/index.ts';
import { volts } from '../../src/units/index.ts';
import { circuit } from '../support/notation.ts';

describe('the supply (SI 1994/3021, kept by the ESQCR 2002 (from memory))', () => {
  it('is 230 V at 50 Hz, +10 % / −6 %', () => {
    expect(NOMINAL_VOLTS).toBe(230);
    expect(SUPPLY_HERTZ).toBe(50);
    expect(STATUTORY_LIMITS.low).toBe(216.2);
    expect(STATUTORY_LIMITS.high).toBe(253);
    expect(STATUTORY_LIMITS.low).toBeCloseTo(230 * 0.94, 9);
    expect(STATUTORY_LIMITS.high).toBeCloseTo(230 * 1.1, 9);
  });

  it('may drop 5 % on its way through an installation (BS 7671 Appendix 4)', () => {
    expect(VOLT_DROP_LIMIT.volts).toBe(11.5);
    expect(VOLT_DROP_LIMIT.volts).toBeCloseTo(230 * 0.05, 9);
  });
});

describe('reading classes', () => {
  it('have their limits from the supply’s and the volt drop', () => {
    // 216.2 − 11.5, 253.0 and 11.5 V.
    expect(CLASS_LIMITS.live).toBeCloseTo(204.7, 9);
    expect(CLASS_LIMITS.high).toBe(253);
    expect(CLASS_LIMITS.dead).toBe(11.5);
  });

  it.each([
    [0, 'dead'],
    [11.5, 'dead'],
    [11.500001, 'between'],
    [50, 'between'],
    [115, 'between'],
    [204.699999, 'between'],
    [204.7, 'live'],
    // The statutory edges themselves (SI 1994/3021).
    [216.2, 'live'],
    [230, 'live'],
    // A healthy supply reads 240 or 242 V as often as not (common practice, no source).
    [240, 'live'],
    [242, 'live'],
    [253, 'live'],
    [253.000001, 'high'],
    [400, 'high'],
  ] as const)('%s V is %s', (ac, expected) => {
    expect(classOf(volts(ac))).toBe(expected);
  });

  it.each([216.2, 230, 240, 242, 253])(
    'a supply of %s V reads live through the engine',
    (supply) => {
      const network = circuit('F1 mains: supply L N E', { supplyVolts: supply });
      const { solution } = settleMode(network, 'on', {});
      const shown = read(solution, 'F1.L', 'F1.N', { ohms: 10e6, farads: 0 });
      expect(shown.ac).toBeCloseTo(supply, 4);
      expect(shown.class).toBe('live');
    },
  );
});

describe('extra-low voltage (IEC voltage bands)', () => {
  it('is at most 50 V AC, 120 V ripple-free DC', () => {
    expect(EXTRA_LOW_LIMITS.ac).toBe(50);
    expect(EXTRA_LOW_LIMITS.dc).toBe(120);
  });

  it.each([
    [0, false],
    [0.99, false],
    [1, true],
    [24, true],
    [-24, true],
    [120, true],
    [120.1, false],
  ])('%s V DC: %s', (dc, expected) => {
    expect(isExtraLow(volts(dc))).toBe(expected);
  });
});

describe('external earth fault loop (distributors’ declared maxima, from memory)', () => {
  it.each([
    ['TN-C-S', 0.35],
    ['TN-S', 0.8],
    ['TT', 21],
  ] as const)('%s: %s Ω, also as the engine’s supply shows it', (earthing, ohms) => {
    expect(EXTERNAL_LOOP_OHMS[earthing]).toBe(ohms);
    const network = circuit(`F1 mains: supply L N E { earthing: ${earthing} }`);
    const { solution } = settleMode(network, 'on', {});
    const [line, earth] = [nodeOf(network, 'F1.L').index, nodeOf(network, 'F1.E').index];
    const loop = magnitude(impedanceBetween(solution.ac, line, earth));
    // The neutral–earth link at a TN-C-S origin adds its own milliohm.
    expect(Math.abs(loop - ohms)).toBeLessThan(0.0011);
  });
});
