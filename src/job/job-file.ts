import { JOB_VERSION, JobFile } from './job-schema.ts';

/** Largest file read and written; pictures that would pass it are left out of a file. */
export const MOST_BYTES = 2 * 1024 * 1024;

/** A job that can be read, or one line that says why it cannot. */
export type ReadJob = { readonly file: JobFile } | { readonly problem: string };

/** A job as the text of a file. */
export const jobFileText = (file: JobFile): string => `${JSON.stringify(file, null, 1)}\n`;

/** Checks the size of a file before it is read. */
export const sizeProblem = (bytes: number): string | null =>
  bytes > MOST_BYTES
    ? `This file has ${megabytes(bytes)} MB; a job’s file has at most ${megabytes(MOST_BYTES)} MB.`
    : bytes === 0
      ? 'This file is empty.'
      : null;

/** Reads a job from the text of a file. Nothing of the text is run or followed. */
export function readJobFile(text: string): ReadJob {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { problem: 'This file is damaged or is no job: it is not whole JSON.' };
  }
  if (!isJobLike(value)) return { problem: 'This file is not a job exported here.' };
  if (value.version !== JOB_VERSION) {
    return {
      problem:
        typeof value.version === 'number' && value.version > JOB_VERSION
          ? `This job is of version ${value.version}, made by a newer version of this reference: take up the newer version, then import it.`
          : 'This job is of a version that is not known here.',
    };
  }
  const read = JobFile.safeParse(value);
  if (!read.success) {
    const [issue] = read.error.issues;
    const where = issue && issue.path.length > 0 ? ` at ${issue.path.map(String).join(' › ')}` : '';
    return { problem: `This job is damaged${where.slice(0, 120)}: ${issue?.message ?? 'unknown'}` };
  }
  const inside = insideProblem(read.data);
  return inside === null ? { file: read.data } : { problem: inside };
}

/** What the parts of a file say of each other. */
function insideProblem({ job, pictures }: JobFile): string | null {
  const ids = job.entries.map(({ id }) => id);
  if (new Set(ids).size < ids.length) return 'This job is damaged: two of its readings are one.';
  if (job.entries.some(({ round }) => round > job.repairs.length))
    return 'This job is damaged: a reading stands after a repair that is not in it.';
  const known = new Set(job.photos.map(({ id }) => id));
  if (known.size < job.photos.length) return 'This job is damaged: two of its photos are one.';
  if (pictures.some(({ id }) => !known.has(id)))
    return 'This job is damaged: it holds a picture that belongs to no photo.';
  return null;
}

function isJobLike(value: unknown): value is { proveline: 'job'; version: unknown } {
  return (
    typeof value === 'object' &&
    value !== null &&
    !Array.isArray(value) &&
    'proveline' in value &&
    value.proveline === 'job' &&
    'version' in value
  );
}

const megabytes = (bytes: number) => (bytes / 1024 / 1024).toFixed(1);
