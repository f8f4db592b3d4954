import { createHash } from 'node:crypto';
import {
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join, resolve } from 'node:path';
import {
  SEARCH_BUDGET,
  type SearchProblem,
  type SearchResult,
  solveSequence,
} from '../diagnosis/search/index.ts';

/** Where the search's own code stands, seen from where the build runs. */
const CODE = resolve('src/diagnosis/search');
/** Where what was found is kept from build to build. */
const KEPT = resolve('node_modules/.cache/proveline/sequences');

/** Milliseconds after which what nobody asked for is forgotten. */
const MONTH = 30 * 24 * 3600 * 1000;

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
 */
export function keepingSolver(folder: string | null = KEPT): Solver {
  const code = folder === null ? null : codeHash();
  const place = code === null ? null : folder;
  const known = new Map<string, SearchResult>();
  const names = new WeakMap<SearchProblem, string>();

  const nameOf = (problem: SearchProblem): string => {
    const made = names.get(problem) ?? problemHash(problem, code ?? '');
    names.set(problem, made);
    return made;
  };
  const find = (name: string): SearchResult | undefined => {
    const found = known.get(name) ?? (place === null ? undefined : readKept(place, name));
    if (found) known.set(name, found);
    return found;
  };
  const keep = (problem: SearchProblem, result: SearchResult): void => {
    const name = nameOf(problem);
    known.set(name, result);
    if (place !== null) writeKept(place, name, result);
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
    prune() {
      if (place === null) return;
      const oldest = Date.now() - MONTH;
      for (const file of filesIn(place).map((name) => join(place, name))) {
        if ((statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? Infinity) < oldest)
          rmSync(file, { force: true });
      }
    },
  };
}

/** Hash of the search's own code; null where it cannot be read, as in a bundle. */
function codeHash(): string | null {
  const files = filesIn(CODE).sort();
  if (files.length === 0) return null;
  const hash = createHash('sha256');
  for (const file of files) hash.update(file).update(readFileSync(join(CODE, file)));
  return hash.digest('hex');
}

function problemHash(problem: SearchProblem, code: string): string {
  const tests = problem.tests.map((test) => ({ ...test, answers: Array.from(test.answers) }));
  const text = JSON.stringify([code, SEARCH_BUDGET, { ...problem, tests }]);
  return createHash('sha256').update(text).digest('hex').slice(0, 40);
}

function filesIn(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

function readKept(folder: string, name: string): SearchResult | undefined {
  try {
    const file = join(folder, `${name}.json`);
    const found = JSON.parse(readFileSync(file, 'utf8')) as SearchResult;
    const now = new Date();
    utimesSync(file, now, now);
    return found;
  } catch {
    return undefined;
  }
}

/** Written beside its place and moved there, so that no build reads half a file. */
function writeKept(folder: string, name: string, result: SearchResult): void {
  const file = join(folder, `${name}.json`);
  const beside = `${file}.${process.pid}`;
  try {
    mkdirSync(folder, { recursive: true });
    writeFileSync(beside, JSON.stringify(result));
    renameSync(beside, file);
  } catch {
    // What cannot be kept is searched for again next time.
  }
}
