import { describe, expect, it } from 'vitest';
import { reduce } from '../../../src/diagnosis/search/reduce.ts';
import {
  changesOnly,
  openingsOnly,
  setupsOnly,
} from '../../../src/diagnosis/search/relaxations.ts';
import { SetupSearch } from '../../../src/diagnosis/search/setup-search.ts';
import { random, SEED } from '../../support/random.ts';
import { bruteMinutes } from './brute.ts';
import { smallProblem } from './small.ts';

const FRESH = Math.floor(Math.random() * 2 ** 32);

describe.each([
  ['fixed', SEED],
  ['fresh', FRESH],
])('setup cost, readings free, %s seed %i', (_, seed) => {
  const from = random(seed);
  const cases = Array.from({ length: 600 }, () => {
    const given = smallProblem(from);
    const problem = { ...given, tests: given.tests.map((test) => ({ ...test, minutes: 0 })) };
    const reduced = reduce(problem);
    return { reduced, least: bruteMinutes(problem) };
  });

  /** Expected minutes by search, asked with so much effort so many times. */
  function boundOf(reduced: ReturnType<typeof reduce>, effort: number, times: number): number {
    const meter = { expanded: 0 };
    const search = new SetupSearch(setupsOnly(reduced), meter, [
      new SetupSearch(openingsOnly(reduced), meter),
      new SetupSearch(changesOnly(reduced), meter),
    ]);
    const every = Array.from(reduced.weights.keys());
    let found = 0;
    for (let i = 0; i < times; i++) found = search.bound(every, reduced.mode, 0, 0, effort);
    return found / reduced.weights.reduce((sum, weight) => sum + weight, 0);
  }

  it('costs just what trying everything costs', () => {
    for (const [i, { reduced, least }] of cases.entries()) {
      expect(boundOf(reduced, 1e6, 1), `case ${i}`).toBeCloseTo(least, 9);
    }
  });

  it('bounds the least from below however little it may search, and rises as it is asked', () => {
    for (const [i, { reduced, least }] of cases.entries()) {
      let before = 0;
      for (const times of [1, 2, 5]) {
        const bound = boundOf(reduced, 1, times);
        expect(bound, `case ${i}`).toBeLessThanOrEqual(least + 1e-9);
        expect(bound, `case ${i}`).toBeGreaterThanOrEqual(before - 1e-12);
        before = bound;
      }
    }
  });
});
