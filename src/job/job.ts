import { ISOLATED } from '../../schemas/index.ts';
import { HISTORIES, type History, type Sighting } from '../diagnosis/index.ts';
import type { Observation } from '../diagnosis/inference/index.ts';
import { askedKey } from './asked.ts';
import { type Entry, JOB_VERSION, type Job, type Photo, type Remark } from './job-schema.ts';
import { FRAGMENT, MOST_FRAGMENT } from './limits.ts';

export type { Entry, Job, Photo, Remark } from './job-schema.ts';

/** A system as a job names it. */
export interface JobSystem {
  readonly id: string;
  readonly title: string;
  readonly wiring: number;
  /** Mode that it stands in where nothing is seen yet. */
  readonly mode: string;
}

/** Time and names for new things; a test gives its own. */
export interface Making {
  readonly now: () => string;
  readonly id: () => string;
}

export const making: Making = {
  now: () => new Date().toISOString(),
  id: () => crypto.randomUUID(),
};

/** What a job is begun with. */
export interface Beginning {
  readonly name: string;
  readonly place: string;
  /** The symptom that the customer complains of, where one is named. */
  readonly complaint?: Job['complaint'];
  /** Id of the published sequence that it follows: begun on, or its complaint’s; none unless given. */
  readonly sequence?: string | null;
  /** What the customer says of the time before; that it worked until now unless given. */
  readonly history?: History;
  /** What is seen already; whoever sees it stands in the mode of the first. */
  readonly seen?: readonly Sighting[];
  /** Fuse links of it that have blown, as the customer says, by their branches. */
  readonly blown?: readonly string[];
  /** Specification of an arrangement composed from parts, where it is one. */
  readonly specification?: string | null;
}

/** Mode of a job whose system is not known yet: every system has it. */
const UNKNOWN_MODE = ISOLATED;

/**
 * A job with nothing found yet but what is seen at its beginning.
 * @param system null while nobody knows which it is.
 */
export function newJob(
  system: JobSystem | null,
  {
    name,
    place,
    complaint = null,
    sequence = null,
    history = HISTORIES[0],
    seen = [],
    blown = [],
    specification = null,
  }: Beginning,
  how: Making = making,
): Job {
  const { now, id } = how;
  const at = now();
  const job: Job = {
    version: JOB_VERSION,
    id: id(),
    complaint,
    sequence,
    system: null,
    systemTitle: '',
    wiring: null,
    composed: specification === null ? null : { specification, parts: null },
    name: name.trim(),
    place: place.trim(),
    history,
    started: at,
    changed: at,
    finished: null,
    by: '',
    notes: '',
    entries: [],
    repairs: [],
    remarks: [],
    remains: '',
    customer: '',
    photos: [],
    cannot: [],
    asFound: null,
    mode: UNKNOWN_MODE,
    instrument: 'tester',
  };
  if (!system) return job;
  return withSystem(job, system, { seen, blown, sequence }, how);
}

/** What the complaint says of a system, and which of its published sequences it is. */
export type Told = Pick<Beginning, 'seen' | 'blown' | 'sequence'>;

/** The job with the system that it turned out to be, and what is told of it. */
export function withSystem(
  job: Job,
  { id, title, wiring, mode }: JobSystem,
  { seen = [], blown = [], sequence = null }: Told,
  how: Making = making,
): Job {
  const known = { ...job, sequence, system: id, systemTitle: title, wiring, changed: how.now() };
  const told = blown.reduce<Job>(
    (open, branch) => {
      const observation = { kind: 'fuse', mode: ISOLATED, branch, answer: 'blown' } as const;
      return withEntry(open, { observation, note: '', told: true }, how);
    },
    withTold(known, seen, how),
  );
  return { ...told, mode: seen[0]?.mode ?? mode };
}

const withTold = (job: Job, seen: readonly Sighting[], how: Making): Job =>
  seen.reduce<Job>((open, { mode: of, outcome, answer }) => {
    const observation: Look = { kind: 'look', mode: of, outcome, answer };
    const told = lookAt(open, of, outcome);
    return told
      ? changeEntry(open, told.id, { observation }, how)
      : withEntry(open, { observation, note: '', told: true }, how);
  }, job);

/** What an arrangement composed from parts came to, the first time it was worked out. */
export interface WorkedOut {
  readonly title: string;
  /** By what its circuit is known, see `circuitMark`. */
  readonly parts: string;
  /** Mode that it stands in where nothing is seen yet. */
  readonly mode: string;
}

/** The job with what its arrangement came to, and what its complaint shows there for certain. */
export function withWorkedOut(
  job: Job,
  { title, parts, mode }: WorkedOut,
  seen: readonly Sighting[],
  how: Making = making,
): Job {
  if (job.composed === null) return job;
  const known = {
    ...job,
    systemTitle: title,
    composed: { ...job.composed, parts },
    changed: how.now(),
  };
  return { ...withTold(known, seen, how), mode: seen[0]?.mode ?? mode };
}

/** The job, whose system nobody knew, with the arrangement that it turned out to be. */
export const withSpecification = (
  job: Job,
  specification: string,
  { now }: Making = making,
): Job => ({ ...job, composed: { specification, parts: null }, changed: now() });

/** Whether it is known what a job is about: an entry, or an arrangement composed from parts. */
export const isKnown = ({ system, composed }: Pick<Job, 'system' | 'composed'>): boolean =>
  system !== null || composed !== null;

/** Repairs made so far: what is found from here on is found after them. */
export const roundOf = (job: Job): number => job.repairs.length;

/** What was found since the last repair: all that speaks for the faults there are now. */
export const openEntries = (job: Job): readonly Entry[] =>
  job.entries.filter(({ round }) => round === roundOf(job));

/** The job with one observation more. The engineer then stands in its mode. */
export const addEntry = (
  job: Job,
  observation: Observation,
  note = '',
  how: Making = making,
): Job => withEntry(job, { observation, note, told: false }, how);

function withEntry(
  job: Job,
  { observation, note, told }: Pick<Entry, 'observation' | 'note' | 'told'>,
  { now, id }: Making,
): Job {
  const at = now();
  const entry = { id: id(), at, round: roundOf(job), observation, note, told };
  const instrument = observation.kind === 'live' ? observation.instrument : job.instrument;
  return {
    ...job,
    entries: [...job.entries, entry],
    mode: observation.mode,
    instrument,
    changed: at,
  };
}

/** Left out as one: every live reading; every dead test that takes a meter; every insulation test. */
export const ALL_LIVE = 'live readings';
export const ALL_DEAD = 'dead tests';
export const ALL_INSULATION = 'insulation tests';
/** Acts that are dead tests with a meter too. */
export const METERED_ACTS: readonly string[] = ['core', 'part'];

/** The job with a test, a place or a kind of tests that the engineer cannot do or open. */
export const leaveOut = (job: Job, id: string, { now }: Making = making): Job => ({
  ...job,
  cannot: [...job.cannot, id],
  changed: now(),
});

/** The job with all that was left out back in. */
export const bringBack = (job: Job, { now }: Making = making): Job => ({
  ...job,
  cannot: [],
  changed: now(),
});

/** The job with an observation put right. */
export function changeEntry(
  job: Job,
  id: string,
  change: Partial<Pick<Entry, 'observation' | 'note' | 'told'>>,
  { now }: Making = making,
): Job {
  const entries = job.entries.map((entry) => (entry.id === id ? { ...entry, ...change } : entry));
  return { ...job, entries, changed: now() };
}

/** The job without an observation. */
export const removeEntry = (job: Job, id: string, { now }: Making = making): Job => ({
  ...job,
  entries: job.entries.filter((entry) => entry.id !== id),
  changed: now(),
});

type Look = Extract<Observation, { kind: 'look' }>;

/** The latest look at an outcome in a mode since the last repair; undefined where not looked. */
export const lookAt = (job: Job, mode: string, outcome: string): Entry | undefined =>
  openEntries(job).findLast(
    ({ observation: o }) => o.kind === 'look' && o.mode === mode && o.outcome === outcome,
  );

/** The job with what was seen of an outcome in a mode; null takes it back to not looked. */
export function setLook(
  job: Job,
  mode: string,
  outcome: string,
  answer: Look['answer'] | null,
  how: Making = making,
): Job {
  const known = lookAt(job, mode, outcome);
  if (answer === null) return known ? removeEntry(job, known.id, how) : job;
  const observation: Look = { kind: 'look', mode, outcome, answer };
  if (!known) return addEntry(job, observation, '', how);
  return { ...changeEntry(job, known.id, { observation, told: false }, how), mode };
}

/** The job with what was found, in place of what was only told of it. */
export function enterFound(
  job: Job,
  observation: Observation,
  note = '',
  how: Making = making,
): Job {
  const key = askedKey(observation);
  const told = openEntries(job).find((one) => one.told && askedKey(one.observation) === key);
  if (!told) return addEntry(job, observation, note, how);
  const { mode } = observation;
  return { ...changeEntry(job, told.id, { observation, note, told: false }, how), mode };
}

/** The job with something mended; what is found from now on stands after it. */
export function addRepair(job: Job, text: string, { now }: Making = making): Job {
  const at = now();
  return { ...job, repairs: [...job.repairs, { at, text: text.trim() }], changed: at };
}

/** The job with its last repair said otherwise: what was done, where a cause's repair says what to do. */
export function changeRepair(job: Job, text: string, { now }: Making = making): Job {
  const repairs = job.repairs.map((repair, i) =>
    i === job.repairs.length - 1 ? { ...repair, text } : repair,
  );
  return { ...job, repairs, changed: now() };
}

/** The job without its last repair; what was found after it counts as found before. */
export function takeBackRepair(job: Job, { now }: Making = making): Job {
  const repairs = job.repairs.slice(0, -1);
  const entries = job.entries.map((entry) => ({
    ...entry,
    round: Math.min(entry.round, repairs.length),
  }));
  return { ...job, repairs, entries, changed: now() };
}

/** The job with some of its plain particulars changed. */
export const changeJob = (
  job: Job,
  change: Partial<
    Pick<
      Job,
      'name' | 'place' | 'history' | 'notes' | 'by' | 'remains' | 'customer' | 'mode' | 'instrument'
    >
  >,
  { now }: Making = making,
): Job => ({ ...job, ...change, changed: now() });

/** The job with something wrong beside the fault. */
export function addRemark(
  job: Job,
  remark: Pick<Remark, 'place' | 'text' | 'code' | 'photo'>,
  { now, id }: Making = making,
): Job {
  const at = now();
  return { ...job, remarks: [...job.remarks, { id: id(), at, ...remark }], changed: at };
}

/** The job without something that was noticed. */
export const removeRemark = (job: Job, id: string, { now }: Making = making): Job => ({
  ...job,
  remarks: job.remarks.filter((remark) => remark.id !== id),
  changed: now(),
});

/** The job with a photo more; its picture is kept beside it. */
export const addPhoto = (job: Job, photo: Photo, { now }: Making = making): Job => ({
  ...job,
  photos: [...job.photos, photo],
  changed: now(),
});

/** The job without a photo. */
export const removePhoto = (job: Job, id: string, { now }: Making = making): Job => ({
  ...job,
  photos: job.photos.filter((photo) => photo.id !== id),
  changed: now(),
});

/**
 * The job with the wiring as found, as a fragment of the system's page of it; null takes it off.
 * @throws RangeError for what is no such fragment.
 */
export function setAsFound(job: Job, fragment: string | null, { now }: Making = making): Job {
  if (fragment === null && job.asFound === null) return job;
  if (fragment !== null && (fragment.length > MOST_FRAGMENT || !FRAGMENT.test(fragment)))
    throw new RangeError('wiring as found is kept as the fragment that its page writes: as=…');
  return { ...job, asFound: fragment, changed: now() };
}

/** The job closed, or taken up again. */
export function setFinished(job: Job, finished: boolean, { now }: Making = making): Job {
  const at = now();
  return { ...job, finished: finished ? at : null, changed: at };
}

/** What a job is called where it is listed. */
export const jobTitle = ({ name, place, complaint, systemTitle }: Job): string =>
  name || place || complaint?.words || systemTitle || 'Job';
