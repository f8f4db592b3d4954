import { describe, expect } from 'vitest';
import { reduce } from '../../../src/diagnosis/search/reduce.ts';
import {
  changesOnly,
  openingsOnly,
  setupsOnly,
} from '../../../src/diagnosis/search/relaxations.ts';
import { SetupSearch } from '../../../src/diagnosis/search/setup-search.ts';
import { property } from '../../support/property.ts';
import type { Random } from '../../support/random.ts';
import { bruteMinutes } from './brute.ts';
import { smallProblem } from './small.ts';

describe('setup cost, readings free', () => {
  function drawn(from: Random) {
    const { rules, ...given } = smallProblem(from);
    const problem = { ...given, tests: given.tests.map((test) => ({ ...test, minutes: 0 })) };
    return { reduced: reduce(problem), least: bruteMinutes(problem) };
  }

  /** Expected minutes by search, asked with so much effort so many times. */
  function boundOf(reduced: ReturnType<typeof reduce>, effort: number, times: number): number {
    const meter = { expanded: 0 };
    const search = new SetupSearch(setupsOnly(reduced), meter, [
      new SetupSearch(openingsOnly(reduced), meter),
      new SetupSearch(changesOnly(reduced), meter),
    ]);
    const every = Array.from(reduced.weights.keys());
    let found = 0;
    for (let i = 0; i < times; i++)
      found = search.bound(every, reduced.mode, reduced.opened, effort);
    return found / reduced.weights.reduce((sum, weight) => sum + weight, 0);
  }

  property('costs just what trying everything costs', 600, (from) => {
    const { reduced, least } = drawn(from);
    expect(boundOf(reduced, 1e6, 1)).toBeCloseTo(least, 9);
  });

  const below =
    'bounds the least from below however little it may search, and rises as it is asked';
  property(below, 600, (from) => {
    const { reduced, least } = drawn(from);
    let before = 0;
    for (const times of [1, 2, 5]) {
      const bound = boundOf(reduced, 1, times);
      expect(bound).toBeLessThanOrEqual(least + 1e-9);
      expect(bound).toBeGreaterThanOrEqual(before - 1e-12);
      before = bound;
    }
  });
});
