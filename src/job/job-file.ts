import { JOB_VERSION, JobFile } from './job-schema.ts';
import { isPlain, type Plain, readJob } from './ladder.ts';

/** Largest file read and written; pictures that would pass it are left out of a file. */
export const MOST_BYTES = 2 * 1024 * 1024;

/** A job that can be read, or one line that says why it cannot. */
export type ReadFile = { readonly file: JobFile } | { readonly problem: string };

/** A job as the text of a file. */
export const jobFileText = (file: JobFile): string => `${JSON.stringify(file, null, 1)}\n`;

/** Checks the size of a file before it is read. */
export const sizeProblem = (bytes: number): string | null =>
  bytes > MOST_BYTES
    ? `This file has ${megabytes(bytes)} MB; a job’s file has at most ${megabytes(MOST_BYTES)} MB.`
    : bytes === 0
      ? 'This file is empty.'
      : null;

/**
 * Reads a job from the text of a file of any version that ever was. Nothing of the text is run
 * or followed.
 */
export function readJobFile(text: string): ReadFile {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { problem: 'This file is damaged or is no job: it is not whole JSON.' };
  }
  if (!isJobLike(value)) return { problem: 'This file is not a job exported here.' };
  if (typeof value.version !== 'number' || value.version < 1) return UNKNOWN;
  if (value.version > JOB_VERSION) return newer(value.version);
  const read = readJob(value.job);
  if ('job' in read) return readRest(value, read.job);
  switch (read.problem) {
    case 'newer':
      return newer(read.version);
    case 'unknown version':
      return UNKNOWN;
    case 'damaged':
      return read.at === null
        ? { problem: `This job is damaged: ${read.why}` }
        : damaged(['job', ...read.at], read.why);
  }
}

const UNKNOWN = { problem: 'This job is of a version that is not known here.' };

const newer = (version: number) => ({
  problem: `This job is of version ${version}, made by a newer version of this reference: take up the newer version, then import it.`,
});

const damaged = (at: readonly string[], why: string) => ({
  problem: `This job is damaged${at.length > 0 ? ` at ${at.join(' › ')}`.slice(0, 120) : ''}: ${why}`,
});

/** The rest of a file whose job can be read: its pictures, and nothing that is not known. */
function readRest(value: Plain, job: JobFile['job']): ReadFile {
  const read = JobFile.safeParse({ ...value, version: JOB_VERSION, job });
  if (!read.success) {
    const [issue] = read.error.issues;
    return damaged(issue!.path.map(String), issue!.message);
  }
  const known = new Set(job.photos.map(({ id }) => id));
  return read.data.pictures.some(({ id }) => !known.has(id))
    ? { problem: 'This job is damaged: it holds a picture that belongs to no photo.' }
    : { file: read.data };
}

const isJobLike = (value: unknown): value is Plain & { proveline: 'job'; version: unknown } =>
  isPlain(value) && value.proveline === 'job' && 'version' in value;

const megabytes = (bytes: number) => (bytes / 1024 / 1024).toFixed(1);
