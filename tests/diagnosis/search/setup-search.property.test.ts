import { describe, expect, it } from 'vitest';
import type { SearchProblem } from '../../../src/diagnosis/search/index.ts';
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

/**
 * From mode 1 three of four causes are one repair. Test 3 is free at once, and then test 0, whose
 * cover comes off on the way to test 2's, tells nothing more: the least leaves test 3 unasked.
 */
const UNASKED: SearchProblem = {
  faults: [0.4, 0.2, 0.2, 0.2].map((weight, i) => ({ weight, repair: i === 3 ? 1 : 0 })),
  tests: [
    { id: 't0', minutes: 0, mode: 0, place: 0, answers: [0, 0, 1, 0] },
    { id: 't1', minutes: 0, mode: 1, place: 0, answers: [0, 1, 0, 0] },
    { id: 't2', minutes: 0, mode: 1, place: 1, answers: [0, 1, 1, 1] },
    { id: 't3', minutes: 0, mode: 1, place: -1, answers: [0, 0, 1, 0] },
  ],
  modeMinutes: [
    [0, 0.1],
    [0, 0],
  ],
  placeMinutes: [0, 0],
  openingMode: 0,
  start: { mode: 1, opened: [] },
};

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

  it('leaves unasked what is free where the answer would take the reason to open a cover', () => {
    const least = bruteMinutes(UNASKED);
    expect(least).toBeCloseTo(0.08, 9);
    expect(boundOf(reduce(UNASKED), 1e6, 1)).toBeCloseTo(least, 9);
  });

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
