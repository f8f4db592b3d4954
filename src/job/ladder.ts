import { HISTORIES } from '../diagnosis/index.ts';
import { JOB_VERSION, Job } from './job-schema.ts';

/** Data of which nothing is known but that it has names. */
export type Plain = Readonly<Record<string, unknown>>;

export const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * From each shape that ever landed to the next. A rung looks at nothing that it does not change:
 * whether the job is whole, the schema of the newest shape says at the top.
 *
 * 1: all shapes before the first frozen one. Wiring as found is absent where nobody marked it.
 * 2: it is null there; a repair may be without words, and figures have no limits, as pages
 *    always let them be entered.
 * 3: what the customer says of the time before; nobody asked, so it worked until then. What
 *    cannot be done.
 * 4: the complaint, which nobody asked; the system may still be unknown. What is wrong beside
 *    the fault, what remains, what the customer is told.
 * 5: a typed resistance may say up to how many ohms it counts as joined; until then it was 2.
 * 6: the arrangement may be composed from parts; until then it was an entry, or not known.
 * 7: what is only told says so itself; until then its note did, in these words.
 * 8: the published sequence that it was begun on; until then none was walked as a job.
 */
const RUNGS: Readonly<Record<number, (job: Plain) => Plain>> = {
  1: (job) => ({ ...job, version: 2, asFound: job.asFound ?? null }),
  2: (job) => ({ ...job, version: 3, history: HISTORIES[0], cannot: [] }),
  3: (job) => ({ ...job, version: 4, complaint: null, remarks: [], remains: '', customer: '' }),
  4: (job) => ({ ...job, version: 5 }),
  5: (job) => ({ ...job, version: 6, composed: null }),
  6: (job) => ({
    ...job,
    version: 7,
    entries: Array.isArray(job.entries) ? job.entries.map(saysTold) : job.entries,
  }),
  7: (job) => ({ ...job, version: 8, sequence: null }),
};

/** Note that told what is only told, up to version 6. */
const TOLD_BEFORE = 'as the customer says';

const saysTold = (entry: unknown): unknown => {
  if (!isPlain(entry)) return entry;
  const told = entry.note === TOLD_BEFORE;
  return { ...entry, note: told ? '' : entry.note, told };
};

/** A job of the newest shape, or why there is none. */
export type ReadJob =
  | { readonly job: Job }
  | { readonly problem: 'newer'; readonly version: number }
  | { readonly problem: 'unknown version' }
  | {
      readonly problem: 'damaged';
      /** Where in the job; null where its parts contradict each other. */
      readonly at: readonly string[] | null;
      readonly why: string;
    };

/**
 * Reads a job of any shape that ever landed, whatever became of it since. Never throws, and
 * changes nothing of what it is given.
 */
export function readJob(value: unknown): ReadJob {
  if (!isPlain(value)) return { problem: 'damaged', at: [], why: 'it is no record' };
  const { version } = value;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return { problem: 'unknown version' };
  if (version > JOB_VERSION) return { problem: 'newer', version };
  let job = value;
  for (let from = version; from < JOB_VERSION; from++) job = RUNGS[from]!(job);
  const read = Job.safeParse(job);
  if (!read.success) {
    const [issue] = read.error.issues;
    return { problem: 'damaged', at: issue!.path.map(String), why: issue!.message };
  }
  const why = contradictionIn(read.data);
  return why === null ? { job: read.data } : { problem: 'damaged', at: null, why };
}

/** What the parts of a job say against each other. */
function contradictionIn({
  system,
  wiring,
  composed,
  entries,
  repairs,
  remarks,
  photos,
}: Job): string | null {
  const names = (list: readonly { readonly id: string }[]) => new Set(list.map(({ id }) => id));
  if (names(entries).size < entries.length) return 'two of its readings are one.';
  if (entries.some(({ round }) => round > repairs.length))
    return 'a reading stands after a repair that is not in it.';
  if (names(photos).size < photos.length) return 'two of its photos are one.';
  if (names(remarks).size < remarks.length) return 'two things noticed are one.';
  if ((system === null) !== (wiring === null))
    return 'it names a system or the version of its wiring, not both.';
  if (system !== null && composed !== null)
    return 'it names a system and an arrangement from parts, not one.';
  if (system === null && composed === null && entries.length > 0)
    return 'it has readings, and no system to have them of.';
  return null;
}
