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

/** What is worked out of the systems, each a stage of a command. */
export interface WorkingOut {
  /** What every fault shows: all that test sequences need. */
  readonly faults: () => Promise<void>;
  /** How diagrams are laid out, and what every replacement comes to. */
  readonly rest: () => Promise<void>;
}

/**
 * A thread that loads the engine while it is not yet known whether there is anything to work out.
 * By itself it keeps no command from ending.
 */
export function readyWorker(): Worker {
  const worker = new Worker(new URL('./work-out-worker.ts', import.meta.url));
  worker.unref();
  return worker;
}

/**
 * Begins to work out, on all the processors there are, what no earlier build worked out of the
 * systems: first what faults show. One system is worked out by one thread, since the command
 * itself has other work for the next processor.
 */
export function workOutResults(
  { systems, results }: Reference,
  progress: Progress,
  ready: Worker = readyWorker(),
): WorkingOut {
  const all = [...systems.values()].flatMap(({ sources }) =>
    RESULT_KINDS.map((kind): Task => ({ kind, source: sources[kind] })),
  );
  const tasks = all
    .filter(({ kind, source }) => !results.has(kind, source))
    .sort((a, b) => Number(isRest(a)) - Number(isRest(b)) || sizeOf(b) - sizeOf(a));
  progress.reused(
    'systems’ faults, diagrams and replacements',
    all.length - tasks.length,
    all.length,
  );
  const done = new Map(tasks.map((task) => [task, Promise.withResolvers<void>()]));
  let at = 0;
  const work = async (worker: Worker): Promise<void> => {
    worker.ref();
    try {
      for (let task = tasks[at++]; task; task = tasks[at++]) {
        results.keep(task.kind, task.source, await madeBy(worker, task));
        done.get(task)!.resolve();
      }
    } finally {
      await worker.terminate();
    }
  };
  const changed = new Set(tasks.map(({ source }) => source.id)).size;
  const more = Math.max(0, Math.min(availableParallelism(), changed) - 1);
  const worked = Promise.all([ready, ...Array.from({ length: more }, readyWorker)].map(work));
  // Said by the stage that waits for it.
  worked.catch(() => {});
  const stage = (title: string, own: readonly Task[]) =>
    progress.stage(title, async (step) => {
      let count = 0;
      const each = own.map(async (task) => {
        await done.get(task)!.promise;
        step(++count, own.length);
      });
      await Promise.race([worked, Promise.all(each)]);
    });
  return {
    faults: () =>
      stage(
        'Faults',
        tasks.filter((task) => !isRest(task)),
      ),
    async rest() {
      await stage('Diagrams and replacements', tasks.filter(isRest));
      await worked;
      results.prune();
    },
  };
}

const isRest = ({ kind }: Task): boolean => kind !== 'signatures';

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
