import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { sequenceProblem } from '../../src/diagnosis/planning/index.ts';
import {
  SEARCH_BUDGET,
  type SearchProblem,
  type SearchResult,
  solveSequence,
} from '../../src/diagnosis/search/index.ts';
import {
  isComplaint,
  ORDERED_HISTORIES,
  type Start,
  startsOf,
} from '../../src/diagnosis/sequences/index.ts';
import { codeKey } from '../../src/reference/code-key.ts';
import { LOCK_FILE, openLock } from '../../src/reference/lock.ts';
import {
  BUILD_BUDGET,
  MOST_GAP,
  WIDE_FURTHER_BUDGET,
  WIDE_PROVE_BUDGET,
} from '../../src/reference/solver.ts';
import { ids, shipped, symptoms } from '../support/signatures.ts';

const FILE = fileURLToPath(new URL(`../../content/${LOCK_FILE}`, import.meta.url));
/** Share of the minutes by which two sums may differ for the order of their terms. */
const ROUNDING = 1e-9;

const told: string[] = [];
const lock = openLock([FILE], (line) => told.push(line));
const all = ids.flatMap((id) => {
  const { simulation, signatures } = shipped(id);
  return ORDERED_HISTORIES.flatMap((history) =>
    startsOf(symptoms, simulation.network, signatures, history).map((start) => ({
      about: `${id}/${start.id}, ${history}`,
      start,
      problem: sequenceProblem(simulation.network, signatures, start.open, start).problem,
    })),
  );
});
/** A customer says what is wrong: from anything, and from nothing seen, the gap is stated. */
const complaints = all.filter(
  ({ start }) => isComplaint(start) && start.history === ORDERED_HISTORIES[0],
);
const locked = all.filter(({ problem }) => lock.find(problem));

/** States by which a search may go beyond its budget: those of its last node. */
const BEYOND = 50;

/** The budgets that a sequence is searched within, the second where the first is not enough. */
const budgetsFrom = (start: Start): readonly [first: number, then: number] =>
  isComplaint(start) ? [BUILD_BUDGET, SEARCH_BUDGET] : [WIDE_PROVE_BUDGET, WIDE_FURTHER_BUDGET];

const tookSecond = (start: Start, { expanded }: SearchResult): boolean =>
  expanded > budgetsFrom(start)[0] + BEYOND;

/** Searched again within the budget that it was found with, which its states tell. */
const foundAnew = (problem: SearchProblem, start: Start, line: SearchResult): SearchResult =>
  solveSequence(problem, budgetsFrom(start)[tookSecond(start, line) ? 1 : 0]);

describe('what ships solved', () => {
  it('fits the shipped systems line by line', () => {
    expect(told).toEqual([]);
    expect(lock.unused(FILE)).toEqual([]);
    expect(locked.length).toBeGreaterThan(0);
  });

  it.each(locked)(
    '$about: its bound is proved again by the search as it stands',
    ({ problem, start }) => {
      const line = lock.find(problem)!;
      const found = foundAnew(problem, start, line);
      // A bound that no tree goes below, and a tree that no bound goes above, whoever found them.
      expect(found.minutes).toBeGreaterThanOrEqual(line.lowerBound * (1 - ROUNDING));
      expect(found.lowerBound).toBeLessThanOrEqual(line.minutes * (1 + ROUNDING));
      expect(found.lowerBound).toBeGreaterThanOrEqual(line.lowerBound * (1 - ROUNDING));
      expect(found.proven).toBe(line.proven);
      if (line.code === codeKey('src/diagnosis/search/index.ts'))
        expect(found.tree).toEqual(line.tree);
    },
  );

  it('was searched on where the first budget proved too little', () => {
    const short = locked.filter(({ problem, start }) => {
      const line = lock.find(problem)!;
      if (tookSecond(start, line)) return false;
      if (isComplaint(start)) return start.history === ORDERED_HISTORIES[0] && !line.proven;
      return line.gap > MOST_GAP;
    });
    expect(short.map(({ about }) => about)).toEqual([]);
  });

  it('is all from a complaint that a build would not prove best within its budget', () => {
    const open = complaints
      .filter(({ problem }) => !lock.find(problem))
      .filter(({ problem }) => !solveSequence(problem, BUILD_BUDGET).proven);
    expect(open.map(({ about }) => about)).toEqual([]);
  });
});
