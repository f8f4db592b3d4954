import type { Job } from './job.ts';
import { isPlain, type Plain, readJob } from './ladder.ts';
import { type Place, PlaceAsKept } from './place.ts';

/** A job as it is kept: the job, and what stood half done on the page. */
export interface KeptJob {
  readonly job: Job;
  /** Counts up with every saving, so that a tab left open never undoes another's work. */
  readonly saved: number;
  readonly place: Place;
}

/** A kept job that this page cannot read: it can be taken away as a file, or deleted. */
export interface UnreadJob {
  /** Key under which it is kept. */
  readonly id: string;
  /** Its name or place, as far as they can be made out; empty where they cannot. */
  readonly title: string;
  /** When it was saved, ISO 8601; null where that is not known. */
  readonly at: string | null;
  /** `newer` where a newer version of the page can read it. */
  readonly problem: 'newer' | 'damaged';
  /** What is wrong with it, as in `at entries › 3 › round: …`. */
  readonly why: string;
  /** The job as it lies there. */
  readonly raw: unknown;
  /** Its photos, as far as they can be made out. */
  readonly photos: readonly string[];
  /** Whether this page may delete it. */
  readonly removable: boolean;
}

/** One job as the database holds it. */
export interface JobRecord {
  readonly id: string;
  /** When it was saved, ISO 8601. */
  readonly at: string;
  readonly saved: number;
  readonly job: Job;
  readonly place: Place;
}

export const asRecord = ({ job, saved, place }: KeptJob): JobRecord => ({
  id: job.id,
  at: job.changed,
  saved,
  job,
  place,
});

/** How often a record was saved; 0 where it does not say. */
export const savedOf = (record: unknown): number =>
  isPlain(record) && typeof record.saved === 'number' && record.saved > 0 ? record.saved : 0;

/**
 * Reads a record, whatever lies there. Never throws; what cannot be read is kept in the answer.
 * @param id what it is kept under
 */
export function readRecord(record: unknown, id: string): KeptJob | UnreadJob {
  if (record === undefined)
    return unread(record, id, 'damaged', 'this browser can no longer give it back.');
  if (!isPlain(record)) return unread(record, id, 'damaged', 'it is no record.');
  const read = readJob(record.job);
  if (!('job' in read)) {
    switch (read.problem) {
      case 'newer':
        return unread(record, id, 'newer', `its version is ${read.version}.`);
      case 'unknown version':
        return unread(record, id, 'damaged', 'its version is not known.');
      case 'damaged':
        return unread(
          record,
          id,
          'damaged',
          `${read.at?.length ? `at ${read.at.join(' › ')}: ` : ''}${read.why}`,
        );
    }
  }
  if (read.job.id !== id) return unread(record, id, 'damaged', 'it is kept under another name.');
  return { job: read.job, saved: savedOf(record), place: PlaceAsKept.parse(record.place) };
}

/** A record that this page does not read, with what can be made out of it. */
export function unread(
  record: unknown,
  id: string,
  problem: UnreadJob['problem'],
  why: string,
): UnreadJob {
  const whole = isPlain(record) ? record : {};
  const job = isPlain(whole.job) ? whole.job : {};
  const text = (value: unknown) => (typeof value === 'string' ? value.trim().slice(0, 160) : '');
  const time = [whole.at, job.changed].find(isTime);
  return {
    id,
    title: text(job.name) || text(job.place) || text(job.systemTitle),
    at: time ?? null,
    problem,
    why,
    raw: isPlain(whole.job) ? whole.job : record,
    photos: photosIn(job),
    removable: true,
  };
}

const isTime = (value: unknown): value is string =>
  typeof value === 'string' && !Number.isNaN(Date.parse(value));

const photosIn = ({ photos }: Plain): string[] =>
  Array.isArray(photos)
    ? photos.flatMap((photo) => (isPlain(photo) && typeof photo.id === 'string' ? [photo.id] : []))
    : [];
