import { describe, expect } from 'vitest';
import { settings } from '../../src/standards/trials.ts';
import { property } from '../support/property.ts';

const named = (count: number) => Array.from({ length: count }, (_, i) => `c${i}`);
const keyOf = (names: readonly string[], setting: Readonly<Record<string, boolean>>) =>
  names.map((name) => Number(setting[name])).join('');

/** Three different places. */
function distinct(from: { below: (n: number) => number }, count: number): [number, number, number] {
  const a = from.below(count);
  const b = (a + 1 + from.below(count - 1)) % count;
  const rest = Array.from({ length: count }, (_, i) => i).filter((i) => i !== a && i !== b);
  return [a, b, rest[from.below(rest.length)]!];
}

describe('ways of setting conditions', () => {
  property('of up to eight are all there are', 9, (from) => {
    const names = named(from.below(9));
    const keys = settings(names).map((setting) => keyOf(names, setting));
    expect(new Set(keys).size).toBe(2 ** names.length);
    expect(keys.length).toBe(2 ** names.length);
  });

  property(
    'of more set any three together in all eight ways, none and all among them',
    12,
    (from) => {
      const names = named(9 + from.below(20));
      const ways = settings(names);
      const keys = ways.map((setting) => keyOf(names, setting));
      expect(new Set(keys).size).toBe(keys.length);
      expect(keys).toContain('0'.repeat(names.length));
      expect(keys).toContain('1'.repeat(names.length));
      // Few enough to be tried everywhere: eight ways a triple, and a little for each condition.
      expect(keys.length).toBeLessThan(64);
      const [a, b, c] = distinct(from, names.length);
      expect(new Set(keys.map((key) => `${key[a]}${key[b]}${key[c]}`)).size).toBe(8);
    },
  );
});
