import { rmSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { relative } from 'node:path';
import { Worker } from 'node:worker_threads';
import { z } from 'zod';
import { HISTORIES } from '../diagnosis/index.ts';
import { SEARCH_BUDGET, type SearchProblem, type SearchResult } from '../diagnosis/search/index.ts';
import { isComplaint, problemOf, type Start } from '../diagnosis/sequences/index.ts';
import { asTyped, type Kept } from '../folder/index.ts';
import {
  LONG_SEARCH,
  type LockLine,
  lineOf,
  MOST_GAP,
  problemHash,
  type Reference,
  type Solver,
  WIDE_FURTHER_BUDGET,
  WIDE_PROVE_BUDGET,
  writeLock,
} from '../reference/index.ts';
import { giveWay } from './give-way.ts';
import type { Progress } from './progress.ts';

/** Searches that run at once at most: a large one holds some two gigabytes. */
const MOST_WORKERS = 2;
/** What searches on and writes the lock. */
const PROVE = asTyped('npm run build -- --prove');
/** Names said in one line at most; of more, how many more. */
const MOST_NAMES = 4;

/** The problem of one sequence, and whose it is. */
interface Sequence {
  /** System and start. */
  readonly about: string;
  readonly start: Start;
  readonly problem: SearchProblem;
  /** States that the build searches within. */
  readonly budget: number;
}

/**
 * Whether it starts from a complaint about what worked until now and is to be proven best: from
 * anything, from nothing seen, and since somebody has worked on it, its gap is stated.
 */
const isToBeProven = ({ start }: Sequence): boolean =>
  isComplaint(start) && start.history === HISTORIES[0];

/** Searches for one problem at a time. */
export interface Searcher {
  readonly search: (problem: SearchProblem, budget: number) => Promise<SearchResult>;
  readonly stop: () => Promise<unknown>;
}

/** What a build does about its sequences. */
export interface SolveOptions {
  /** Lock file of those whose pages are built: a firm's own, or the reference's. */
  readonly lockFile: string;
  /** Whether to search on where the build's budget proves nothing best, and to lock what is found. */
  readonly prove: boolean;
  /** States that a search from a complaint may then expand. */
  readonly proveBudget?: number;
  /** States from which on a search within the build's budget is locked too. */
  readonly longSearch?: number;
  /** What searches; a thread of its own unless given. */
  readonly startSearcher?: () => Searcher;
  /** Remembers of systems that stand as they were that their sequences are solved. */
  readonly memory?: SolvedMemory;
}

/** What earlier builds solved of whole systems, so that their problems need not be made again. */
export interface SolvedMemory {
  readonly kept: Kept;
  /** Names a system with all that its problems depend on. */
  readonly keyOf: (system: string) => string;
}

/** What is remembered of one sequence. */
const Solved = z.array(
  z.strictObject({
    about: z.string(),
    /** Hash of its problem. */
    problem: z.string(),
    /** The gap, where a longer search would better it. */
    open: z.number().optional(),
  }),
);
type Solved = z.infer<typeof Solved>;

/**
 * Solves every system's sequences that are neither locked nor kept by an earlier build, within
 * the build's budget and on all the processors there are, so that pages find them solved. Says
 * what of the lock is of no use, and which sequences a longer search would better.
 *
 * @returns how many searches there were
 */
export async function solveSequences(
  { systems, solver, learned }: Pick<Reference, 'systems' | 'solver' | 'learned'>,
  progress: Progress,
  {
    lockFile,
    prove,
    proveBudget = SEARCH_BUDGET,
    longSearch = LONG_SEARCH,
    startSearcher = searchThread,
    memory,
  }: SolveOptions,
): Promise<number> {
  const all: Sequence[] = [];
  const remembered: Solved = [];
  // Proving needs every problem, and what a firm counted is solved beside our own.
  const recall = prove || learned ? undefined : memory;
  let searches = await progress.stage('Sequences', async (step) => {
    const open: Sequence[] = [];
    const fresh = new Map<string, Sequence[]>();
    for (const [id, system] of systems) {
      const before = recall?.kept.read(recall.keyOf(id));
      if (before) {
        remembered.push(...Solved.parse(JSON.parse(before.toString('utf8'))));
        continue;
      }
      const { network, signatures, starts, startsSinceWork } = system;
      const own: Sequence[] = [];
      fresh.set(id, own);
      for (const start of [...starts, ...startsSinceWork]) {
        const about = `${id}/${start.id}${start.history === HISTORIES[0] ? '' : `, ${start.history}`}`;
        const { problem } = problemOf(network, signatures, start);
        const sequence = { about, start, problem, budget: solver.budgetFrom(start) };
        own.push(sequence);
        if (!solver.has(problem, sequence.budget)) open.push(sequence);
        // Pages are bundled meanwhile.
        await giveWay();
      }
      all.push(...own);
    }
    // What our own shares give is shown beside what a firm's visits make of it, and locked by us.
    for (const id of learned ? systems.keys() : []) {
      const { network, signatures, starts, startsSinceWork } = learned!.before(id);
      for (const start of [...starts, ...startsSinceWork]) {
        const { problem } = problemOf(network, signatures, start);
        const sequence = { about: id, start, problem, budget: solver.budgetFrom(start) };
        if (!solver.has(problem, sequence.budget)) open.push(sequence);
        await giveWay();
      }
    }
    const count = all.length + remembered.length;
    progress.reused('sequences', Math.max(0, count - open.length), count);
    await searchAll(open, solver, startSearcher, step);
    for (const [id, own] of fresh) {
      const solved = own.map((one) => solvedOf(one, solver));
      remembered.push(...solved);
      // What is refused of the lock is said at every build.
      if (solver.lock.isSound)
        recall?.kept.write(recall.keyOf(id), Buffer.from(JSON.stringify(solved)));
    }
    return open.length;
  });
  if (prove) {
    const unproven = all
      .filter((one) => isToBeProven(one) || !isComplaint(one.start))
      .filter((one) => isWorthProving(solver, one));
    const within = (sequences: readonly Sequence[], wide: number): Sequence[] =>
      sequences.map((one) => ({
        ...one,
        budget: isComplaint(one.start) ? proveBudget : Math.min(proveBudget, wide),
      }));
    await progress.stage('Sequences proved', async (step) => {
      await searchAll(within(unproven, WIDE_PROVE_BUDGET), solver, startSearcher, step);
      const far = unproven.filter(({ problem }) => solver.solve(problem).gap > MOST_GAP);
      await searchAll(within(far, WIDE_FURTHER_BUDGET), solver, startSearcher, step);
    });
    searches += unproven.length;
    progress.say(writeOwnLock(all, new Set(unproven), solver, { lockFile, longSearch }));
  } else {
    for (const line of remarks(remembered, solver, lockFile)) progress.say(line);
  }
  solver.prune();
  recall?.kept.prune();
  return searches;
}

/** Whether more than the build's budget could better what is known of a problem. */
function isWorthProving(solver: Solver, { problem, budget }: Sequence): boolean {
  if (solver.solve(problem, budget).proven) return false;
  // The same code would find the same again; other code may prove what that one could not.
  return solver.lock.find(problem)?.code !== solver.code;
}

/** Searches within their budgets what no earlier search with them found, the largest first. */
async function searchAll(
  sequences: readonly Sequence[],
  solver: Solver,
  startSearcher: () => Searcher,
  step: (done: number, of: number) => void,
): Promise<void> {
  const open = sequences.toSorted((a, b) => sizeOf(b.problem) - sizeOf(a.problem));
  let [at, done] = [0, 0];
  const work = async (): Promise<void> => {
    const { search, stop } = startSearcher();
    try {
      for (let next = open[at++]; next; next = open[at++]) {
        const { problem, budget } = next;
        const found = solver.kept(problem, budget) ?? (await search(problem, budget));
        solver.keep(problem, better(found, solver.lock.find(problem)), budget);
        step(++done, open.length);
      }
    } finally {
      await stop();
    }
  };
  const workers = Math.min(MOST_WORKERS, availableParallelism(), open.length);
  await Promise.all(Array.from({ length: workers }, work));
}

const sizeOf = ({ faults, tests }: SearchProblem): number => faults.length * tests.length;

function searchThread(): Searcher {
  const worker = new Worker(new URL('./solve-worker.ts', import.meta.url));
  return {
    search: (problem, budget) =>
      new Promise((resolve, reject) => {
        worker.removeAllListeners();
        worker.once('message', resolve);
        worker.once('error', reject);
        worker.postMessage([problem, budget]);
      }),
    stop: () => worker.terminate(),
  };
}

/** What a search found, or what is locked if its tree is the quicker, with the bound just proved. */
function better(found: SearchResult, locked: SearchResult | undefined): SearchResult {
  if (!locked || found.minutes <= locked.minutes) return found;
  const lowerBound = Math.min(found.lowerBound, locked.minutes);
  const proven = lowerBound === locked.minutes;
  return {
    ...found,
    tree: locked.tree,
    minutes: locked.minutes,
    lowerBound,
    proven,
    gap: 1 - lowerBound / locked.minutes,
  };
}

/** Locks what was searched for beyond the build's budget, and says what the file now holds. */
function writeOwnLock(
  all: readonly Sequence[],
  searched: ReadonlySet<Sequence>,
  { solve, lock, code }: Solver,
  { lockFile, longSearch }: Pick<Required<SolveOptions>, 'lockFile' | 'longSearch'>,
): string {
  const lines = all.flatMap((sequence): LockLine | [] => {
    const { about, problem } = sequence;
    if (searched.has(sequence)) return lineOf(about, problem, solve(problem), code ?? '');
    const locked = lock.find(problem);
    if (locked) return locked.file === lockFile ? lineOf(about, problem, locked, locked.code) : [];
    // What takes a build long ships solved too: a first build of a clean clone has none kept.
    const found = solve(problem);
    return found.expanded >= longSearch && (found.proven || !isToBeProven(sequence))
      ? lineOf(about, problem, found, code ?? '')
      : [];
  });
  const dropped = lock.unused(lockFile);
  // An empty lock would say nothing; none says the same.
  if (lines.length === 0) rmSync(lockFile, { force: true });
  else writeLock(lockFile, lines);
  const proven = lines.filter(({ minutes, bound }) => bound === minutes).length;
  const gone =
    dropped.length > 0
      ? `; dropped, as fitting none: ${names(dropped.map((line) => line.for))}`
      : '';
  if (lines.length === 0) return `No sequence needs a lock${gone}`;
  return `${relative('.', lockFile)} holds ${lines.length} sequences, ${proven} of them proven best${gone}`;
}

function solvedOf(one: Sequence, { solve, lock }: Solver): Solved[number] {
  const { about, problem } = one;
  const found = isToBeProven(one) ? solve(problem) : undefined;
  const isOpen = found && !found.proven && !lock.find(problem);
  return { about, problem: problemHash(problem), ...(isOpen ? { open: found.gap } : {}) };
}

/** What of the lock is of no use, and which sequences a longer search would better. */
function remarks(solved: Solved, solver: Solver, lockFile: string): string[] {
  const file = relative('.', lockFile);
  const asked = new Set(solved.map(({ problem }) => problem));
  const unused = solver.lock
    .unused(lockFile)
    .flatMap((line) => (asked.has(line.problem) ? [] : line.for));
  const said = solved.flatMap(({ about, open }) =>
    open === undefined ? [] : `${about} (gap ${(100 * open).toFixed(1)} %)`,
  );
  const lines = [];
  if (unused.length > 0)
    lines.push(
      unused.length === 1
        ? `${file}: ${unused[0]} fits no sequence of this build; ${PROVE} drops it`
        : `${file}: ${names(unused)} fit no sequence of this build; ${PROVE} drops them`,
    );
  if (said.length > 0)
    lines.push(
      `Not proven best within ${solver.budget} states: ${names(said)}. ${PROVE} searches on, some minutes for large systems, and keeps what it finds in ${file}`,
    );
  return lines;
}

const names = (all: readonly string[]): string =>
  all.length <= MOST_NAMES
    ? all.join(', ')
    : `${all.slice(0, MOST_NAMES).join(', ')} and ${all.length - MOST_NAMES} more`;
