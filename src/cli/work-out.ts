import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { Reference } from '../reference/index.ts';
import { type Kind, RESULT_KINDS, type Source } from '../reference/results/index.ts';
import type { Progress } from './progress.ts';

/** One result to work out. */
interface Task {
  readonly kind: Kind;
  readonly source: Source;
}

/**
 * Works out, on all the processors there are, what no earlier build worked out of the systems:
 * what every fault shows, how diagrams are laid out, what every replacement comes to. One stage of
 * a command.
 */
export async function workOutResults(
  { systems, results }: Reference,
  progress: Progress,
): Promise<void> {
  const all = [...systems.values()].flatMap(({ sources }) =>
    RESULT_KINDS.map((kind): Task => ({ kind, source: sources[kind] })),
  );
  await progress.stage('Faults, diagrams, replacements', async (step) => {
    const tasks = all
      .filter(({ kind, source }) => !results.has(kind, source))
      .sort((a, b) => sizeOf(b) - sizeOf(a));
    progress.reused(
      'systems’ faults, diagrams and replacements',
      all.length - tasks.length,
      all.length,
    );
    let [at, done] = [0, 0];
    const work = async (): Promise<void> => {
      const worker = new Worker(new URL('./work-out-worker.ts', import.meta.url));
      try {
        for (let task = tasks[at++]; task; task = tasks[at++]) {
          results.keep(task.kind, task.source, await madeBy(worker, task));
          step(++done, tasks.length);
        }
      } finally {
        await worker.terminate();
      }
    };
    const workers = Math.min(availableParallelism(), tasks.length);
    await Promise.all(Array.from({ length: workers }, work));
    results.prune();
  });
}

/** Simulations grow with the faults and with the size of the circuit, both with its cores. */
const sizeOf = ({ source: { system, devices } }: Task): number =>
  Object.values(system.cables).reduce((sum, { cores }) => sum + Object.keys(cores).length, 0) ** 2 +
  Object.keys(devices).length;

function madeBy(worker: Worker, task: Task): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    worker.removeAllListeners();
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.postMessage(task);
  });
}
