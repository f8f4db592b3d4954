import { z } from 'zod';
import { ohms, volts } from '../units/index.ts';
import {
  FRAGMENT,
  MOST_FRAGMENT,
  MOST_LINE,
  MOST_PHOTOS,
  MOST_PICTURE_BYTES,
  MOST_TEXT,
} from './limits.ts';

/** Version of the job format: counts up when an older reader would misread it. */
export const JOB_VERSION = 1;

/** Most of each thing a job holds: what one call-out could need, many times over. */
const MOST_ENTRIES = 400;
const MOST_REPAIRS = 40;

const Id = z.string().regex(/^[A-Za-z0-9-]{1,64}$/);
const Slug = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
  .max(80);
const Time = z.iso.datetime();
const Line = z.string().max(MOST_LINE);
const Text = z.string().max(MOST_TEXT);
/** A point, outcome or branch: the system it belongs to says whether it is there. */
const Name = z.string().min(1).max(MOST_LINE);

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
        volts: z.number().min(-1000).max(1000).transform(volts),
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
      z.strictObject({ ohms: z.number().min(0).max(1e12).transform(ohms) }),
    ]),
  }),
  z.strictObject({
    kind: z.literal('fuse'),
    mode: Slug,
    branch: Name,
    answer: z.enum(['intact', 'blown', 'wrong rating']),
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
});

/** Something mended, from the ranked faults or in the engineer's own words. */
const Repair = z.strictObject({ at: Time, text: Text.min(1) });

/** A picture taken on the job; the picture itself is kept beside the job. */
const Photo = z.strictObject({ id: Id, at: Time, caption: Line });

/**
 * Wiring as found, marked on the system's own page: the fragment that page writes. Whether the
 * system can be so is for that page to say.
 */
const AsFoundLink = z.string().max(MOST_FRAGMENT).regex(FRAGMENT);

/** One job: a system at a place, what was found there, what was done, what then was proved. */
export const Job = z.strictObject({
  version: z.literal(JOB_VERSION),
  id: Id,
  /** Entry id of the system, its title, and the version of its wiring. */
  system: Slug,
  systemTitle: Line,
  wiring: z.int().min(1),
  name: Line,
  place: Line,
  started: Time,
  changed: Time,
  finished: Time.nullable(),
  /** Who did the work. */
  by: Line,
  notes: Text,
  entries: z.array(Entry).max(MOST_ENTRIES),
  repairs: z.array(Repair).max(MOST_REPAIRS),
  photos: z.array(Photo).max(MOST_PHOTOS),
  /** How it was wired when it was found; absent where nobody marked it. */
  asFound: AsFoundLink.optional(),
  /** Where the engineer stands: mode brought about, instrument in hand. */
  mode: Slug,
  instrument: z.enum(['tester', 'multimeter', 'low-impedance']),
});

/** A photo in a file: JPEG, base64. */
const Picture = z.strictObject({
  id: Id,
  jpeg: z
    .string()
    .max(Math.ceil((4 * MOST_PICTURE_BYTES) / 3) + 4)
    .regex(/^\/9j\/[A-Za-z0-9+/]*={0,2}$/),
});

/** A job in a file of its own. */
export const JobFile = z.strictObject({
  proveline: z.literal('job'),
  version: z.literal(JOB_VERSION),
  job: Job,
  pictures: z.array(Picture).max(MOST_PHOTOS),
});

export type Job = z.infer<typeof Job>;
export type Entry = Job['entries'][number];
export type Repair = Job['repairs'][number];
export type Photo = Job['photos'][number];
export type JobFile = z.infer<typeof JobFile>;
