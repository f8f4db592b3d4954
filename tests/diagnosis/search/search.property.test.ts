import { describe, expect, it } from 'vitest';
import {
  orderPolicyTree,
  type SearchProblem,
  type SearchTree,
  solveSequence,
  walkTree,
} from '../../../src/diagnosis/search/index.ts';
import { property } from '../../support/property.ts';
import type { Random } from '../../support/random.ts';
import { bruteMinutes } from './brute.ts';
import { smallProblem } from './small.ts';
import { tradeProblem } from './trade.ts';

describe('any small problem', () => {
  const ofAny = (name: string, holds: (problem: SearchProblem) => void, trials = 600) =>
    property(name, trials, (from: Random) => holds(smallProblem(from)));

  ofAny('takes just the minutes that trying everything takes', (problem) => {
    const found = solveSequence(problem);
    expect([found.proven, found.gap]).toEqual([true, 0]);
    expect(found.minutes).toBeCloseTo(bruteMinutes(problem), 9);
    expect(found.lowerBound).toBe(found.minutes);
  });

  ofAny('is bounded from both sides however little is searched', (problem) => {
    const least = bruteMinutes(problem);
    for (const budget of [0, 1, 3, 8]) {
      const { minutes, lowerBound, gap } = solveSequence(problem, budget);
      expect(lowerBound, `budget ${budget}`).toBeLessThanOrEqual(least + 1e-9);
      expect(minutes, `budget ${budget}`).toBeGreaterThanOrEqual(least - 1e-9);
      if (minutes > 0) expect(gap).toBeCloseTo(1 - lowerBound / minutes, 12);
    }
  });

  ofAny('is reported as walking its tree gives, and ends where it should', (problem) => {
    for (const budget of [2, 500]) {
      const { tree, minutes } = solveSequence(problem, budget);
      expect(walkTree(problem, tree).minutes).toBeCloseTo(minutes, 9);
      expectSoundEnds(problem, tree);
      expectNoStepInVain(problem, tree);
    }
  });

  ofAny(
    'gives the same again, and whatever the weights are multiplied by',
    (problem) => {
      const once = solveSequence(problem, 20);
      expect(solveSequence(problem, 20)).toEqual(once);
      const scaled = (factor: number) => ({
        ...problem,
        faults: problem.faults.map((f) => ({ ...f, weight: f.weight * factor })),
      });
      for (const factor of [1024, 1 / 128]) expect(solveSequence(scaled(factor), 20)).toEqual(once);
      // Any other factor rounds the weights themselves, so that the problem is another one by a hair.
      for (const factor of [1 / 3, 7e5])
        expect(solveSequence(scaled(factor), 20).minutes).toBeCloseTo(once.minutes, 9);
    },
    150,
  );

  ofAny('is beaten by no fixed order', ({ rules, ...problem }) => {
    const order = problem.tests.map((_, i) => i);
    const tree = orderPolicyTree(problem, order);
    expectSoundEnds(problem, tree);
    expect(walkTree(problem, tree).minutes).toBeGreaterThanOrEqual(bruteMinutes(problem) - 1e-9);
  });
});

describe('two tests that answer alike, one of them in a place', () => {
  /** Taken with the place open, the later change of mode is saved that opening it would ask. */
  const problem: SearchProblem = {
    faults: [0, 1, 0, 0, 1].map((repair) => ({ weight: 1, repair })),
    tests: [
      { id: 'early', minutes: 0, mode: 1, place: -1, answers: [1, 0, 1, 0, 1] },
      { id: 'anywhere', minutes: 2, mode: 0, place: -1, answers: [1, 1, 1, 0, 1] },
      { id: 'in the place', minutes: 2, mode: 0, place: 1, answers: [1, 1, 1, 0, 1] },
      { id: 'late', minutes: 0.1, mode: 1, place: 1, answers: [0, 0, 0, 0, 1] },
    ],
    modeMinutes: [
      [0, 0],
      [3.5, 0],
    ],
    placeMinutes: [0, 0],
    openingMode: 0,
    start: { mode: 0, opened: [0] },
  };

  it('keeps the one that opens the place in the mode in which it is opened', () => {
    const { minutes, proven } = solveSequence(problem);
    expect([minutes, proven]).toEqual([expect.closeTo(bruteMinutes(problem), 9), true]);
  });
});

/**
 * Of seven causes of one weight, one is another repair. Covers come off in mode 1, where one
 * stands. Tests 1 and 2 tell alike and cost nothing; 2 takes the cover off on its way, so that
 * test 3 needs one change of mode for five of the seven, and not a detour.
 */
const OPENED_ON_THE_WAY: SearchProblem = {
  faults: Array.from({ length: 7 }, (_, i) => ({ weight: 1, repair: i === 2 ? 1 : 0 })),
  tests: [
    { id: 't0', minutes: 0, mode: 0, place: -1, answers: [0, 0, 0, 1, 0, 0, 0] },
    { id: 't1', minutes: 0, mode: 1, place: -1, answers: [0, 0, 0, 0, 1, 0, 0] },
    { id: 't2', minutes: 0, mode: 0, place: 0, answers: [0, 0, 0, 0, 1, 0, 0] },
    { id: 't3', minutes: 0, mode: 2, place: 0, answers: [1, 0, 1, 0, 0, 0, 0] },
  ],
  modeMinutes: [0, 0.1, 0.1],
  placeMinutes: [0],
  openingMode: 1,
  start: { mode: 1, opened: [] },
};

describe('a small problem in which much is free', () => {
  it('takes a cover off on the way rather than what is free first', () => {
    const { minutes, proven } = solveSequence(OPENED_ON_THE_WAY);
    expect([proven, bruteMinutes(OPENED_ON_THE_WAY)]).toEqual([true, (5 / 7) * 0.1]);
    expect(minutes).toBeCloseTo((5 / 7) * 0.1, 9);
  });

  /** Half of the readings and of the changes of mode, one way or both, cost nothing. */
  function mostlyFree(from: Random): SearchProblem {
    const problem = smallProblem(from);
    const orNone = (minutes: number) => (from.below(2) === 0 ? 0 : minutes);
    return {
      ...problem,
      tests: problem.tests.map((test) => ({ ...test, minutes: orNone(test.minutes) })),
      modeMinutes: problem.modeMinutes.map((row) =>
        problem.modeMinutes.map((_, to) => orNone(typeof row === 'number' ? row : row[to]!)),
      ),
      placeMinutes: problem.placeMinutes.map(orNone),
    };
  }

  property('takes just the minutes that trying everything takes', 900, (from) => {
    const problem = mostlyFree(from);
    const { minutes, proven } = solveSequence(problem);
    expect(proven).toBe(true);
    expect(minutes).toBeCloseTo(bruteMinutes(problem), 9);
  });
});

describe('problems like those of the trade', () => {
  const sizes = [
    { zones: 1, exchanges: 4, seed: 1 },
    { zones: 1, exchanges: 10, seed: 2 },
    { zones: 2, exchanges: 0, seed: 3 },
  ];
  it.each(sizes)('$zones zones, $exchanges exchanges, seed $seed: proven', (size) => {
    const problem = tradeProblem(size);
    const { tree, minutes, proven } = solveSequence(problem, 20_000);
    expect(proven).toBe(true);
    expect(walkTree(problem, tree).minutes).toBeCloseTo(minutes, 9);
    expectSoundEnds(problem, tree);
  });

  it('stops at its budget with a tree and a bound', () => {
    const problem = tradeProblem({ zones: 2, exchanges: 20, seed: 4 });
    const { tree, minutes, lowerBound, proven } = solveSequence(problem, 100);
    expect(proven).toBe(false);
    expect(lowerBound).toBeGreaterThan(0);
    expect(lowerBound).toBeLessThan(minutes);
    expect(walkTree(problem, tree).minutes).toBeCloseTo(minutes, 9);
    expectSoundEnds(problem, tree);
  });
});

describe('what is refused', () => {
  const sound: SearchProblem = {
    faults: [
      { weight: 1, repair: 0 },
      { weight: 1, repair: 1 },
    ],
    tests: [
      { id: 'early', minutes: 1, mode: 0, place: -1, answers: [0, 1] },
      { id: 'late', minutes: 1, mode: 0, place: 0, answers: [0, 1] },
    ],
    modeMinutes: [0],
    placeMinutes: [1],
    start: { mode: 0, opened: [] },
  };
  const [early, late] = sound.tests;

  it.each<[string, Partial<SearchProblem>]>([
    ['the number of faults is 0; give a finite number of at least 1', { faults: [] }],
    [
      'early has 1 answers; give one for each of the 2 faults',
      { tests: [{ ...early!, answers: [0] }] },
    ],
    [
      'the place of late is 1; give a whole number from -1 to 0',
      { tests: [early!, { ...late!, place: 1 }] },
    ],
    [
      'the minutes of early is NaN; give a finite number of at least 0',
      { tests: [{ ...early!, minutes: Number.NaN }] },
    ],
    [
      'late has 3 answers; give one for each of the 2 faults',
      { tests: [early!, { ...late!, answers: [0, 1, 0] }] },
    ],
    [
      'the place of early is -2; give a whole number from -1 to 0',
      { tests: [{ ...early!, place: -2 }] },
    ],
    [
      'the mode of early is 1; give a whole number from 0 to 0',
      { tests: [{ ...early!, mode: 1 }] },
    ],
    [
      'the mode of early is 0.5; give a whole number from 0 to 0',
      { tests: [{ ...early!, mode: 0.5 }] },
    ],
    [
      'the minutes of late is Infinity; give a finite number of at least 0',
      { tests: [early!, { ...late!, minutes: Infinity }] },
    ],
    ['the minutes of place 0 is -1; give a finite number of at least 0', { placeMinutes: [-1] }],
    [
      `the weight of fault 1 is 0; give a finite number of at least ${Number.MIN_VALUE}`,
      { faults: [sound.faults[0]!, { weight: 0, repair: 1 }] },
    ],
    ['a change of mode 0 is -2; give a finite number of at least 0', { modeMinutes: [-2] }],
    [
      'a change of mode 0 is NaN; give a finite number of at least 0',
      { modeMinutes: [[Number.NaN]] },
    ],
    ['row 0 of the mode changes has 2 numbers; give 1', { modeMinutes: [[0, 1]] }],
    [
      'the mode at the start is 1; give a whole number from 0 to 0',
      { start: { mode: 1, opened: [] } },
    ],
    ['a place opened is 1; give a whole number from 0 to 0', { start: { mode: 0, opened: [1] } }],
    [
      '65536 faults; give at most 65535',
      { faults: Array.from({ length: 65_536 }, () => ({ weight: 1, repair: 0 })), tests: [] },
    ],
    [
      '31 places; give at most 30, joining those opened together',
      { placeMinutes: Array.from({ length: 31 }, () => 1) },
    ],
  ])('%s', (message, change) => {
    expect(() => solveSequence({ ...sound, ...change })).toThrow(new RangeError(message));
  });

  it('is nothing that lies on a limit', () => {
    const places = Array.from({ length: 30 }, () => 1);
    const test = { ...early!, minutes: 0, place: 29 };
    expect(solveSequence({ ...sound, tests: [test], placeMinutes: places }).minutes).toBe(1);
    const one = { ...sound, faults: [sound.faults[0]!], tests: [{ ...early!, answers: [0] }] };
    expect(solveSequence(one)).toEqual({
      tree: { kind: 'end', faults: [0] },
      minutes: 0,
      lowerBound: 0,
      proven: true,
      gap: 0,
      expanded: 0,
    });
  });

  it('walks no tree that lacks an answer', () => {
    const end = { kind: 'end', faults: [0, 1] } as const;
    const step = (test: number, next: SearchTree, answers = [0, 1]): SearchTree => ({
      kind: 'test',
      test,
      faults: [0, 1],
      branches: answers.map((answer) => ({ answer, next })),
    });
    expect(() => walkTree(sound, step(0, end, [0]))).toThrow(
      new RangeError('early has no branch for 1, as fault 1'),
    );
    expect(walkTree(sound, step(0, step(1, end))).minutesOf).toEqual([3, 3]);
  });
});

/** Every fault comes to an end that holds it, of one repair or no test apart. */
function expectSoundEnds(problem: SearchProblem, tree: SearchTree): void {
  for (const [fault, { faults }] of walkTree(problem, tree).ends.entries()) {
    expect(faults).toContain(fault);
    const repairs = new Set(faults.map((one) => problem.faults[one]!.repair));
    const apart = problem.tests.some(({ answers }) =>
      faults.some((f) => answers[f] !== answers[fault]),
    );
    expect(repairs.size === 1 || !apart).toBe(true);
  }
}

/**
 * Every step, one that costs nothing too, divides what is left, and that needs two repairs; what
 * is left stands in ascending order.
 */
function expectNoStepInVain(problem: SearchProblem, tree: SearchTree): void {
  expect(tree.faults).toEqual(tree.faults.toSorted((a, b) => a - b));
  if (tree.kind === 'end') return;
  const repairs = tree.faults.map((fault) => problem.faults[fault]!.repair);
  expect(new Set(repairs).size).toBeGreaterThan(1);
  expect(tree.branches.length).toBeGreaterThan(1);
  for (const { next } of tree.branches) expectNoStepInVain(problem, next);
}
