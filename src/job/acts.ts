import type { Shows } from './client.ts';
import { type Job, withWorkedOut } from './job.ts';
import { MOST_ENTRIES, MOST_REPAIRS } from './job-schema.ts';
import { readJob } from './ladder.ts';
import type { Sheet } from './sheet.ts';
import { systemIdOf } from './subject.ts';

/** Whether an act changed what the engine is asked. */
export const isAsked = (before: Job, after: Job): boolean =>
  before.entries !== after.entries ||
  before.repairs.length !== after.repairs.length ||
  before.cannot !== after.cannot ||
  before.history !== after.history ||
  before.mode !== after.mode;

/** Why a job as changed is not taken, in words; null where it is: only what can be read is saved. */
export function refusalOf(job: Job): string | null {
  if (job.entries.length > MOST_ENTRIES)
    return `A job holds at most ${MOST_ENTRIES} readings: begin another job for what follows.`;
  if (job.repairs.length > MOST_REPAIRS)
    return `A job holds at most ${MOST_REPAIRS} repairs: begin another job for what follows.`;
  const read = readJob(job);
  return 'job' in read
    ? null
    : `That cannot be kept with a job, so it was not taken${'why' in read ? `: ${read.why}` : '.'}`;
}

/** A job with what its arrangement from parts came to, the first time that it is worked out; else null. */
export function metFirst(job: Job, sheet: Sheet, shows: Shows): Job | null {
  if (!job.composed || systemIdOf(job) !== null) return null;
  const parts = sheet.id.replace(/^composed-/, '');
  const came = { title: sheet.title, parts, mode: sheet.modes[0]!.id };
  return withWorkedOut(job, came, shows[job.complaint?.id ?? ''] ?? []);
}
