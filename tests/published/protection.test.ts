import { describe, expect, it } from 'vitest';
import {
  CONTROLS_FUSE,
  FUSE_BREAKS,
  FUSE_CARRIES,
  fuseColour,
  INSULATION_LIMITS,
  TYPE_B_TRIP_MULTIPLE,
} from '../../src/published/index.ts';
import { amps } from '../../src/units/index.ts';

describe('fuse links to BS 1362', () => {
  it('carry 1.6 times and break 1.9 times their rating within 30 minutes', () => {
    expect(FUSE_CARRIES.multiple).toBe(1.6);
    expect(FUSE_BREAKS['BS 1362'].multiple).toBe(1.9);
    // The 13 A link: 20.8 A and 24.7 A (BS 1362).
    expect(13 * FUSE_CARRIES.multiple).toBeCloseTo(20.8, 9);
    expect(13 * FUSE_BREAKS['BS 1362'].multiple).toBeCloseTo(24.7, 9);
  });

  it('break within the time–current zones of the standard', () => {
    // BS 1362 zones: 3 A at 9 A within 80 s, 13 A at 30 A within 400 s: both above 1.9 In.
    expect(3 * FUSE_BREAKS['BS 1362'].multiple).toBeLessThan(9);
    expect(13 * FUSE_BREAKS['BS 1362'].multiple).toBeLessThan(30);
  });

  it('are red at 3 A, brown at 13 A, black otherwise', () => {
    expect(fuseColour(amps(3))).toBe('red');
    expect(fuseColour(amps(13))).toBe('brown');
    expect(fuseColour(amps(5))).toBe('black');
    expect(fuseColour(amps(10))).toBe('black');
  });

  it('feed heating controls at 3 A (common practice, no source)', () => {
    expect(CONTROLS_FUSE).toBe(3);
  });
});

describe('other protection', () => {
  it('IEC 60127-2 links break at 2.1 times their rating (from memory)', () => {
    expect(FUSE_BREAKS['IEC 60127'].multiple).toBe(2.1);
    expect(FUSE_BREAKS['IEC 60127'].source.standing).toBe('from memory');
  });

  it('EN 60898 type B trips at 5 times its rating within 0.4 s', () => {
    expect(TYPE_B_TRIP_MULTIPLE).toBe(5);
  });
});

describe('insulation resistance (BS 7671 Table 64, IEC 60364-6)', () => {
  it('extra-low voltage: 250 V, at least 0.5 MΩ', () => {
    expect(INSULATION_LIMITS.extraLow).toEqual({ testVolts: 250, megohms: 0.5 });
  });

  it('up to 500 V: 500 V, at least 1 MΩ', () => {
    expect(INSULATION_LIMITS.mains).toEqual({ testVolts: 500, megohms: 1 });
  });

  it('with equipment connected: 250 V between live conductors joined and earth (643.3.3)', () => {
    expect(INSULATION_LIMITS.equipmentConnected).toEqual({ testVolts: 250, megohms: 1 });
  });
});
