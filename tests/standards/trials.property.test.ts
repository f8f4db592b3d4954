import { describe, expect } from 'vitest';
import { settings } from '../../src/standards/trials.ts';
import { property } from '../support/property.ts';

const named = (count: number) => Array.from({ length: count }, (_, i) => `c${i}`);
const keyOf = (names: readonly string[], setting: Readonly<Record<string, boolean>>) =>
  names.map((name) => Number(setting[name])).join('');

describe('ways of setting conditions', () => {
  property('of up to six are all there are', 7, (from) => {
    const names = named(from.below(7));
    const keys = settings(names).map((setting) => keyOf(names, setting));
    expect(new Set(keys).size).toBe(2 ** names.length);
    expect(keys.length).toBe(2 ** names.length);
  });

  property('of seven or more are 127, none set and all set among them', 20, (from) => {
    const names = named(7 + from.below(24));
    const ways = settings(names);
    const keys = ways.map((setting) => keyOf(names, setting));
    expect(new Set(keys).size).toBe(127);
    expect(keys.at(0)).toBe('0'.repeat(names.length));
    expect(keys.at(-1)).toBe('1'.repeat(names.length));
    // Each is tried both ways nearly as often as the other.
    for (const name of names) {
      const set = ways.filter((way) => way[name]).length;
      expect(set).toBeGreaterThan(127 / 3);
      expect(set).toBeLessThan((127 * 2) / 3);
    }
  });
});
