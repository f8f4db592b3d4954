import { createHash } from 'node:crypto';
import { resolve } from 'node:path';
import {
  SEARCH_BUDGET,
  type SearchProblem,
  type SearchResult,
  solveSequence,
} from '../diagnosis/search/index.ts';
import { codeKey } from './code-key.ts';
import { keptIn } from './kept.ts';

/** The search's own code, seen from where the build runs. */
const CODE = 'src/diagnosis/search/index.ts';
/** Where what was found is kept from build to build. */
const KEPT = resolve('node_modules/.cache/proveline/sequences');

/** Solves search problems, each once: what was found is kept, on disk too. */
export interface Solver {
  /** The best tree known within the budget; the same whether it was kept or not. */
  readonly solve: (problem: SearchProblem) => SearchResult;
  /** Whether a problem is solved already, by this solver or an earlier one. */
  readonly has: (problem: SearchProblem) => boolean;
  /** Keeps what was found elsewhere, with the same code and budget. */
  readonly keep: (problem: SearchProblem, result: SearchResult) => void;
  /** Removes from disk what no build has asked for in a month. */
  readonly prune: () => void;
}

/**
 * A solver that keeps what it finds, under a name made of the problem, the budget and the
 * search's own code: equal ones give equal results everywhere, so nothing kept can be stale.
 *
 * @param folder where to keep it; null for memory alone. A folder that cannot be written is
 * done without.
 * @param code names the search's code; null, as where its sources are not at hand, keeps in
 * memory alone.
 */
export function keepingSolver(
  folder: string | null = KEPT,
  code: string | null = folder === null ? null : codeKey(CODE),
): Solver {
  const kept = folder === null || code === null ? null : keptIn(folder);
  const known = new Map<string, SearchResult>();
  const names = new WeakMap<SearchProblem, string>();

  const nameOf = (problem: SearchProblem): string => {
    const made = names.get(problem) ?? problemHash(problem, code ?? '');
    names.set(problem, made);
    return made;
  };
  const find = (name: string): SearchResult | undefined => {
    const bytes = known.has(name) ? undefined : kept?.read(`${name}.json`);
    if (bytes) known.set(name, JSON.parse(bytes.toString('utf8')));
    return known.get(name);
  };
  const keep = (problem: SearchProblem, result: SearchResult): void => {
    const name = nameOf(problem);
    known.set(name, result);
    kept?.write(`${name}.json`, Buffer.from(JSON.stringify(result)));
  };
  return {
    keep,
    has: (problem) => find(nameOf(problem)) !== undefined,
    solve(problem) {
      const found = find(nameOf(problem));
      if (found) return found;
      const result = solveSequence(problem, SEARCH_BUDGET);
      keep(problem, result);
      return result;
    },
    prune: () => kept?.prune(),
  };
}

function problemHash(problem: SearchProblem, code: string): string {
  const tests = problem.tests.map((test) => ({ ...test, answers: Array.from(test.answers) }));
  const text = JSON.stringify([code, SEARCH_BUDGET, { ...problem, tests }]);
  return createHash('sha256').update(text).digest('hex').slice(0, 40);
}
