import { describe, expect, it } from 'vitest';
import {
  breakerLoopOhms,
  breaksWithin,
  FUSE_LOOP_OHMS,
  FUSE_LOOP_SOURCE,
  FUSE_ZONES,
  NOMINAL_VOLTS,
  VOLT_DROP_LIMIT,
  VOLT_DROP_SHARES,
  VOLTAGE_FACTOR_MIN,
} from '../../src/published/index.ts';
import { amps } from '../../src/units/index.ts';

describe('greatest loop impedance of BS 1362 fuses (BS 7671 Tables 41.2 and 41.4, from memory)', () => {
  it('is as the tables give it', () => {
    expect(FUSE_LOOP_OHMS).toEqual({
      3: { 0.4: 15.6, 5: 22 },
      13: { 0.4: 2.3, 5: 3.64 },
    });
    expect(FUSE_LOOP_SOURCE.standing).toBe('from memory');
  });

  it.each([
    // Derived: 0.95 × 230 V over the current that breaks the link in that time.
    [3, 0.4, 14],
    [3, 5, 9.9],
    [13, 0.4, 95],
    [13, 5, 60],
  ] as const)('%s A in %s s fits 218.5 V over %s A', (rating, seconds, current) => {
    const fits = (VOLTAGE_FACTOR_MIN * NOMINAL_VOLTS) / current;
    expect(Math.abs(FUSE_LOOP_OHMS[rating]![seconds] / fits - 1)).toBeLessThan(0.005);
  });

  it.each([
    // 0.4 s lies between a current that may take longer and one that may not (BS 1362 zones).
    [3, 9, 20],
    [13, 50, 100],
  ])('%s A: the current for 0.4 s lies between %s and %s A of its zones', (rating, slow, fast) => {
    const current = (VOLTAGE_FACTOR_MIN * NOMINAL_VOLTS) / FUSE_LOOP_OHMS[rating]![0.4];
    expect(current).toBeGreaterThan(slow);
    expect(current).toBeLessThan(fast);
    expect(breaksWithin(amps(rating), amps(slow))).toBeGreaterThan(0.4);
    expect(breaksWithin(amps(rating), amps(fast))).toBeLessThan(0.4);
  });
});

describe('BS 1362 time–current zones', () => {
  it.each([
    [3, 9, 0.02, 80],
    [13, 30, 1, 400],
    [13, 50, 0.1, 20],
    [13, 100, 0.01, 0.2],
  ])('%s A at %s A: %s to %s s', (rating, current, least, most) => {
    expect(FUSE_ZONES[rating]).toContainEqual({ amps: current, least, most });
  });

  it.each([
    [3, 20, 0.1],
    [3, 30, 0.03],
  ])('%s A at %s A: less than %s s', (rating, current, most) => {
    expect(FUSE_ZONES[rating]).toContainEqual({ amps: current, least: null, most });
  });

  it('says nothing below their first current, and never a shorter time than at a larger one', () => {
    expect(breaksWithin(amps(3), amps(8.9))).toBeNull();
    expect(breaksWithin(amps(13), amps(29))).toBeNull();
    expect(breaksWithin(amps(5), amps(100))).toBeNull();
    expect(breaksWithin(amps(3), amps(19.9))).toBe(80);
    expect(breaksWithin(amps(3), amps(500))).toBe(0.03);
    for (const rating of [3, 13]) {
      const times = Array.from({ length: 200 }, (_, i) => breaksWithin(amps(rating), amps(i)));
      const known = times.filter((t) => t !== null);
      expect(known.toSorted((a, b) => b - a)).toEqual(known);
    }
  });
});

describe('type B circuit-breakers: 0.95 × 230 V over 5 In (EN 60898; derived)', () => {
  it.each([
    [6, 7.28],
    [16, 2.73],
    [20, 2.19],
    [32, 1.37],
  ])('%s A: %s Ω', (rating, most) => {
    expect(Math.abs(breakerLoopOhms(amps(rating)) - most)).toBeLessThan(0.006);
  });
});

describe('volt drop (BS 7671 Appendix 4; Linsley, Basic Electrical Installation Work)', () => {
  it('3 % for lighting is 6.9 V, 5 % for the rest 11.5 V at 230 V', () => {
    expect(VOLT_DROP_SHARES.lighting * NOMINAL_VOLTS).toBeCloseTo(6.9, 9);
    expect(VOLT_DROP_SHARES.other * NOMINAL_VOLTS).toBeCloseTo(11.5, 9);
    expect(VOLT_DROP_LIMIT.volts).toBeCloseTo(VOLT_DROP_SHARES.other * NOMINAL_VOLTS, 9);
  });
});
