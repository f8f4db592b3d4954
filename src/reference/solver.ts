import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { type SearchProblem, type SearchResult, solveSequence } from '../diagnosis/search/index.ts';
import { isComplaint, type Start } from '../diagnosis/sequences/index.ts';
import { keptFolder, keptIn } from '../folder/index.ts';
import { codeKey } from './code-key.ts';
import { type Lock, NO_LOCK, problemHash } from './lock.ts';

/**
 * States that a search may expand while a site is built, a second of the largest shipped.
 * What is not proven best by then is searched beforehand and locked.
 */
export const BUILD_BUDGET = 2_500;
/**
 * The same from a start that is no complaint. Nearly every fault is open there, which makes each
 * state dear, and its gap is stated; what the next finds is locked.
 */
export const WIDE_BUDGET = 300;
/** States from which on a search within the build's budget is worth a line of the lock. */
export const LONG_SEARCH = 300;
/** The wide budget where it is asked to prove. */
export const WIDE_PROVE_BUDGET = 4_000;
/** The largest gap that a published sequence may state, as a share of its minutes. */
export const MOST_GAP = 0.2;
/** The wide budget where a larger gap is still open after that. */
export const WIDE_FURTHER_BUDGET = 12_000;

/** The search's own code, seen from where the build runs. */
const CODE = 'src/diagnosis/search/index.ts';
/** Where what was found is kept from build to build. */
const KEPT = join(keptFolder(), 'sequences');

/** Solves search problems, each once: what was found is kept, on disk too. */
export interface Solver {
  /** What is locked, or the best tree known within a number of states; the budget unless given. */
  readonly solve: (problem: SearchProblem, states?: number) => SearchResult;
  /** Whether a problem is solved already: locked, by this solver or by an earlier one. */
  readonly has: (problem: SearchProblem, states?: number) => boolean;
  /** States that the search from a start may expand. */
  readonly budgetFrom: (start: Pick<Start, 'id'>) => number;
  /** What is locked, or the best tree known from a start. */
  readonly solveFrom: (problem: SearchProblem, start: Pick<Start, 'id'>) => SearchResult;
  /** What an earlier search with a budget found, of the same code. */
  readonly kept: (problem: SearchProblem, budget: number) => SearchResult | undefined;
  /** Keeps what a search with a budget found elsewhere; from now on it is the answer. */
  readonly keep: (problem: SearchProblem, result: SearchResult, budget: number) => void;
  /** Removes from disk what no build has asked for in a month. */
  readonly prune: () => void;
  /** What ships solved. */
  readonly lock: Lock;
  /** States that a search from a complaint may expand. */
  readonly budget: number;
  /** Names the search's code; null where its sources are not at hand. */
  readonly code: string | null;
}

/** What a solver works with; the defaults are a build's. */
export interface SolverOptions {
  /** Where to keep what is found; null for memory alone. One that cannot be written is done without. */
  readonly folder?: string | null;
  /** Names the search's code; null, as where its sources are not at hand, keeps in memory alone. */
  readonly code?: string | null;
  /** What ships solved. */
  readonly lock?: Lock;
  readonly budget?: number;
  /** States from a start that is no complaint. */
  readonly wideBudget?: number;
}

/**
 * A solver that takes what is locked and keeps what it finds, under a name made of the problem,
 * the budget and the search's own code: equal ones give equal results everywhere, so nothing
 * kept can be stale.
 */
export function keepingSolver({
  folder = KEPT,
  code = folder === null ? null : codeKey(CODE),
  lock = NO_LOCK,
  budget = BUILD_BUDGET,
  wideBudget = Math.min(budget, WIDE_BUDGET),
}: SolverOptions = {}): Solver {
  const kept = folder === null || code === null ? null : keptIn(folder);
  const known = new Map<string, SearchResult>();

  const fileOf = (problem: SearchProblem, states: number): string => {
    const text = JSON.stringify([code, states, problemHash(problem)]);
    return `${createHash('sha256').update(text).digest('hex').slice(0, 40)}.json`;
  };
  const readKept = (problem: SearchProblem, states: number): SearchResult | undefined => {
    const bytes = kept?.read(fileOf(problem, states));
    return bytes && JSON.parse(bytes.toString('utf8'));
  };
  const find = (problem: SearchProblem, states: number): SearchResult | undefined => {
    const hash = problemHash(problem);
    const found = known.get(hash) ?? lock.find(problem) ?? readKept(problem, states);
    if (found) known.set(hash, found);
    return found;
  };
  const keep = (problem: SearchProblem, result: SearchResult, states: number): void => {
    known.set(problemHash(problem), result);
    kept?.write(fileOf(problem, states), Buffer.from(JSON.stringify(result)));
  };
  const solve = (problem: SearchProblem, states = budget): SearchResult => {
    const found = find(problem, states);
    if (found) return found;
    const result = solveSequence(problem, states);
    keep(problem, result, states);
    return result;
  };
  const budgetFrom = (start: Pick<Start, 'id'>): number =>
    isComplaint(start) ? budget : wideBudget;
  return {
    kept: readKept,
    keep,
    has: (problem, states = budget) => find(problem, states) !== undefined,
    solve,
    budgetFrom,
    solveFrom: (problem, start) => solve(problem, budgetFrom(start)),
    prune: () => kept?.prune(),
    lock,
    budget,
    code,
  };
}
