import { z } from 'zod';
import { HISTORIES } from '../diagnosis/index.ts';
import { ohms, volts } from '../units/index.ts';
import { FRAGMENT, MOST_FRAGMENT, MOST_SPECIFICATION } from './limits.ts';

/**
 * Version of the shape of a job. A shape that has landed is frozen: another one takes the next
 * number here, and a rung of the ladder that leads to it.
 */
export const JOB_VERSION = 8;

/**
 * Most of each thing a job holds: what one call-out could need, many times over, and never less
 * than any page let a reader enter. They bound what a foreign file can make of this page.
 */
export const MOST_ENTRIES = 2000;
export const MOST_REPAIRS = 200;
const MOST_KEPT_PHOTOS = 24;
const MOST_LETTERS = 4000;
const MOST_NAME = 400;
/** Base64 of the largest picture that a page ever put into a file. */
const MOST_JPEG = 1_500_000;

const Id = z.string().regex(/^[A-Za-z0-9-]{1,64}$/);
const Slug = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
  .max(MOST_NAME);
const Time = z.iso.datetime();
const Text = z.string().max(MOST_LETTERS);
/** A point, outcome or branch: the system it belongs to says whether it is there. */
const Name = z.string().min(1).max(MOST_NAME);

/** Something found out. What of it this system can have is for the engine to say. */
export const Observation = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('look'),
    mode: Slug,
    outcome: Name,
    answer: z.enum(['seen', 'not seen', 'comes and goes']),
  }),
  z.strictObject({
    kind: z.literal('live'),
    mode: Slug,
    from: Name,
    to: Name,
    instrument: z.enum(['tester', 'multimeter', 'low-impedance']),
    answer: z.union([
      z.enum(['live', 'dead', 'between', 'high', 'dc', 'no dc']),
      z.strictObject({
        volts: z.number().transform(volts),
        current: z.enum(['ac', 'dc']),
      }),
    ]),
  }),
  z.strictObject({
    kind: z.literal('dead'),
    mode: Slug,
    from: Name,
    to: Name,
    answer: z.union([
      z.enum(['joined', 'resistance', 'open']),
      z.strictObject({
        ohms: z.number().min(0).transform(ohms),
        joined: z.number().min(0).transform(ohms).optional(),
      }),
    ]),
  }),
  z.strictObject({
    kind: z.literal('fuse'),
    mode: Slug,
    branch: Name,
    answer: z.enum(['intact', 'blown', 'wrong rating']),
  }),
  z.strictObject({
    kind: z.literal('act'),
    mode: Slug,
    id: Name,
    answer: z.enum([
      'live',
      'dead',
      'seen',
      'not seen',
      'comes and goes',
      'joined',
      'resistance',
      'open',
      'nothing',
      'found',
    ]),
  }),
]);

/** One observation of a job, in the order found. */
const Entry = z.strictObject({
  id: Id,
  at: Time,
  /** Repairs made before it: 0 for what was found. */
  round: z.int().min(0).max(MOST_REPAIRS),
  observation: Observation,
  note: Text,
  /** Whether nobody has looked: it is what the customer says. */
  told: z.boolean(),
});

/** Something mended, from the ranked faults or in the engineer's own words. */
const Repair = z.strictObject({ at: Time, text: Text });

/** A picture taken on the job; the picture itself is kept beside the job. */
const Photo = z.strictObject({ id: Id, at: Time, caption: Text });

/**
 * Codes of what is wrong beside the fault: danger present, potentially dangerous, improvement
 * recommended, further investigation. BS 7671:2018, Appendix 6, condition report (from memory).
 */
export const REMARK_CODES = ['C1', 'C2', 'C3', 'FI'] as const;
export const MOST_REMARKS = 100;

/** Something wrong beside the fault: where, what, how bad, with its photo where there is one. */
const Remark = z.strictObject({
  id: Id,
  at: Time,
  place: Text,
  text: Text,
  code: z.enum(REMARK_CODES),
  photo: Id.nullable(),
});

/** What the customer complained of: the symptom's entry, in its words at that time. */
const Complaint = z.strictObject({ id: Slug, words: Text });

/**
 * Wiring as found, marked on the system's own page: the fragment that page writes. Whether the
 * system can be so is for that page to say.
 */
const AsFoundLink = z.string().max(MOST_FRAGMENT).regex(FRAGMENT);

/**
 * An arrangement composed from parts: its specification, as the address of its page holds it, and
 * by what its circuit is known; null until it was worked out for the first time.
 */
const Composed = z.strictObject({
  specification: z
    .string()
    .max(MOST_SPECIFICATION)
    .regex(/^v=[0-9]/),
  parts: z
    .string()
    .regex(/^[0-9a-f]{16}$/)
    .nullable(),
});

/** One job: a complaint at a place, what was found there, what was done, what then was proved. */
export const Job = z.strictObject({
  version: z.literal(JOB_VERSION),
  id: Id,
  /** null where it begins with a system alone. */
  complaint: Complaint.nullable(),
  /** Id of the published sequence that it follows: begun on, or its complaint’s in its system; null for none. */
  sequence: Slug.nullable(),
  /** Entry id of the system, its title, and the version of its wiring; null and empty until it is known. */
  system: Slug.nullable(),
  systemTitle: Text,
  wiring: z.int().min(1).nullable(),
  /** The arrangement in place of an entry; null where it is an entry, or not known. */
  composed: Composed.nullable(),
  name: Text,
  place: Text,
  /** What the customer says of the time before. */
  history: z.enum(HISTORIES),
  started: Time,
  changed: Time,
  finished: Time.nullable(),
  /** Who did the work. */
  by: Text,
  notes: Text,
  entries: z.array(Entry).max(MOST_ENTRIES),
  repairs: z.array(Repair).max(MOST_REPAIRS),
  remarks: z.array(Remark).max(MOST_REMARKS),
  /** What is left to be done, and by whom. */
  remains: Text,
  /** What the customer is told; empty for the words that the record makes of itself. */
  customer: Text,
  photos: z.array(Photo).max(MOST_KEPT_PHOTOS),
  /** Ids of tests that cannot be made here, and of places that cannot be opened. */
  cannot: z.array(Name).max(MOST_ENTRIES),
  /** How it was wired when it was found; null where nobody marked it. */
  asFound: AsFoundLink.nullable(),
  /** Where the engineer stands: mode brought about, instrument in hand. */
  mode: Slug,
  instrument: z.enum(['tester', 'multimeter', 'low-impedance']),
});

/** A photo in a file: JPEG, base64. */
const Picture = z.strictObject({
  id: Id,
  jpeg: z
    .string()
    .max(MOST_JPEG)
    .regex(/^\/9j\/[A-Za-z0-9+/]*={0,2}$/),
});

/** A job in a file of its own. */
export const JobFile = z.strictObject({
  proveline: z.literal('job'),
  version: z.literal(JOB_VERSION),
  job: Job,
  pictures: z.array(Picture).max(MOST_KEPT_PHOTOS),
});

export type Job = z.infer<typeof Job>;
export type Entry = Job['entries'][number];
export type Repair = Job['repairs'][number];
export type Photo = Job['photos'][number];
export type Remark = Job['remarks'][number];
export type JobFile = z.infer<typeof JobFile>;
