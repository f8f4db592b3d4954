import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { SearchProblem, SearchResult } from '../diagnosis/search/index.ts';
import { sequenceProblem } from '../diagnosis/sequences/index.ts';
import type { Reference } from '../reference/index.ts';
import type { Progress } from './progress.ts';

/** Searches that run at once at most: a large one holds some two gigabytes. */
const MOST_WORKERS = 2;

/**
 * Solves every system's sequences that no earlier build solved, on all the processors there
 * are, so that pages find them solved: two stages of a command. Returns how many there were to
 * solve.
 */
export async function solveSequences(
  { systems, solver }: Reference,
  progress: Progress,
): Promise<number> {
  const all = await progress.stage('Faults simulated', (step) => {
    let done = 0;
    return [...systems.values()].flatMap(({ network, signatures, starts }) => {
      step(++done, systems.size);
      return starts.map((start) => sequenceProblem(network, signatures, start.open, start).problem);
    });
  });
  const problems = all
    .filter((problem) => !solver.has(problem))
    .sort((a, b) => sizeOf(b) - sizeOf(a));
  progress.reused('sequences', all.length - problems.length, all.length);
  await progress.stage('Sequences', async (step) => {
    let at = 0;
    let done = 0;
    const work = async (): Promise<void> => {
      const worker = new Worker(new URL('./solve-worker.ts', import.meta.url));
      try {
        for (let problem = problems[at++]; problem; problem = problems[at++]) {
          solver.keep(problem, await solvedBy(worker, problem));
          step(++done, problems.length);
        }
      } finally {
        await worker.terminate();
      }
    };
    const workers = Math.min(MOST_WORKERS, availableParallelism(), problems.length);
    await Promise.all(Array.from({ length: workers }, work));
  });
  solver.prune();
  return problems.length;
}

const sizeOf = ({ faults, tests }: SearchProblem): number => faults.length * tests.length;

function solvedBy(worker: Worker, problem: SearchProblem): Promise<SearchResult> {
  return new Promise((resolve, reject) => {
    worker.removeAllListeners();
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.postMessage(problem);
  });
}
