import { mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { solveSequence } from '../../src/diagnosis/search/index.ts';
import { BUILD_BUDGET, keepingSolver, WIDE_BUDGET } from '../../src/reference/solver.ts';
import { smallProblem } from '../diagnosis/search/small.ts';
import { random } from '../support/random.ts';

const problem = smallProblem(random(1));
const other = {
  ...problem,
  faults: problem.faults.map((fault, i) => ({ ...fault, weight: fault.weight + i })),
};
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sequences-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('a solver that keeps what it finds', () => {
  it('finds what the search finds, and another one has it without searching', () => {
    const one = keepingSolver({ folder });
    expect(one.has(problem)).toBe(false);
    expect(one.solve(problem)).toEqual(solveSequence(problem));
    const two = keepingSolver({ folder });
    expect([two.has(problem), two.has(other)]).toEqual([true, false]);
    expect(two.solve(problem)).toEqual(solveSequence(problem));
  });

  it('keeps what was found elsewhere', () => {
    const one = keepingSolver({ folder });
    one.keep(other, solveSequence(other), BUILD_BUDGET);
    expect([one.has(other), keepingSolver({ folder }).has(other)]).toEqual([true, true]);
  });

  it('searches again where a file is spoilt', () => {
    keepingSolver({ folder }).solve(problem);
    for (const file of readdirSync(folder)) writeFileSync(join(folder, file), '{"tree":');
    const again = keepingSolver({ folder });
    expect(again.has(problem)).toBe(false);
    expect(again.solve(problem)).toEqual(solveSequence(problem));
  });

  it('searches again with another budget', () => {
    keepingSolver({ folder, budget: 10 }).solve(problem);
    expect(keepingSolver({ folder, budget: 10 }).has(problem)).toBe(true);
    const one = keepingSolver({ folder, budget: 20 });
    expect(one.has(problem)).toBe(false);
    expect(one.kept(problem, 10)).toEqual(solveSequence(problem, 10));
  });

  it('searches less from a start that is no complaint, and finds it again', () => {
    const one = keepingSolver({ folder });
    const [wide, complaint] = [{ id: 'nothing-seen' }, { id: 'no-heat' }];
    expect([one.budgetFrom(wide), one.budgetFrom(complaint)]).toEqual([WIDE_BUDGET, BUILD_BUDGET]);
    expect(keepingSolver({ folder, budget: 20 }).budgetFrom(wide)).toBe(20);
    expect(one.solveFrom(problem, wide)).toEqual(solveSequence(problem, WIDE_BUDGET));
    expect(one.kept(problem, WIDE_BUDGET)).toBeDefined();
    expect(one.kept(problem, BUILD_BUDGET)).toBeUndefined();
    const two = keepingSolver({ folder });
    expect([two.has(problem), two.has(problem, WIDE_BUDGET)]).toEqual([false, true]);
  });

  it('has nothing of a problem that differs in one figure', () => {
    const [fault, ...faults] = problem.faults;
    const [test, ...tests] = problem.tests;
    const { start, placeMinutes } = problem;
    const others: (typeof problem)[] = [
      { ...problem, faults: [{ ...fault!, weight: fault!.weight * 2 }, ...faults] },
      { ...problem, faults: [{ ...fault!, repair: fault!.repair + 9 }, ...faults] },
      ...[
        { minutes: test!.minutes + 1 },
        { mode: test!.mode + 1 },
        { place: test!.place + 1 },
        { answers: Array.from(test!.answers, (answer) => answer + 1) },
      ].map((change) => ({ ...problem, tests: [{ ...test!, ...change }, ...tests] })),
      {
        ...problem,
        modeMinutes: [
          [0, 5],
          [7, 0],
        ],
      },
      { ...problem, placeMinutes: [...placeMinutes, 1] },
      { ...problem, start: { ...start, mode: start.mode + 1 } },
      { ...problem, start: { ...start, opened: [...start.opened, 7] } },
    ];
    const found = solveSequence(problem);
    const { budget } = keepingSolver({ folder, code: 'code' });
    keepingSolver({ folder, code: 'code' }).keep(problem, found, budget);
    const has = (one: typeof problem) => keepingSolver({ folder, code: 'code' }).has(one);
    expect(has(structuredClone(problem))).toBe(true);
    for (const [i, one] of others.entries()) expect(has(one), `the ${i + 1}. other`).toBe(false);
  });

  it('searches again with other code', () => {
    keepingSolver({ folder, code: 'one' }).keep(problem, solveSequence(problem), BUILD_BUDGET);
    expect(keepingSolver({ folder, code: 'one' }).has(problem)).toBe(true);
    expect(keepingSolver({ folder, code: 'another' }).has(problem)).toBe(false);
  });

  it('does without a folder that cannot be written', () => {
    const file = join(folder, 'file');
    writeFileSync(file, '');
    const one = keepingSolver({ folder: join(file, 'below') });
    expect(one.solve(problem)).toEqual(solveSequence(problem));
    expect(one.has(problem)).toBe(true);
  });

  it('forgets what nobody asked for in a month', () => {
    const one = keepingSolver({ folder });
    one.solve(problem);
    one.prune();
    expect(readdirSync(folder)).toHaveLength(1);
    const old = new Date(Date.now() - 40 * 24 * 3600 * 1000);
    for (const file of readdirSync(folder)) utimesSync(join(folder, file), old, old);
    one.prune();
    expect(readdirSync(folder)).toEqual([]);
  });

  it('keeps in memory alone where no folder is given', () => {
    const one = keepingSolver({ folder: null });
    one.solve(problem);
    expect([one.has(problem), keepingSolver({ folder: null }).has(problem)]).toEqual([true, false]);
  });
});
