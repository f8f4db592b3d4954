import { z } from 'zod';
import { HISTORIES } from '../diagnosis/index.ts';
import { CAUSES, Day, Id, Slug } from './file.ts';
import { recordsIn, recordsText } from './kept-file.ts';
import { MOST_MINUTES } from './limits.ts';

/** Where a firm's folder keeps what its visits found. */
export const COUNTS_FILE = 'field/counts.json';
/** Most visits that are counted. */
export const MOST_VISITS = 5000;
const COUNTS_VERSION = 1;

/** A visit as it is counted: nothing of anybody's house but what was wrong there. */
export const CountedVisit = z.strictObject({
  id: Id,
  on: Day,
  system: Slug,
  history: z.enum(HISTORIES),
  family: z.enum(CAUSES),
  minutes: z.int().min(0).max(MOST_MINUTES).nullable(),
});
export type CountedVisit = z.infer<typeof CountedVisit>;

const Counts = z.strictObject({
  proveline: z.literal('counts', 'this is no file of counts'),
  version: z.literal(COUNTS_VERSION, `this version reads version ${COUNTS_VERSION}`),
  visits: z.array(CountedVisit).max(MOST_VISITS, `there are at most ${MOST_VISITS} visits`),
});

/** The visits of a file of counts, or what is wrong with it. */
export type ReadCounts =
  | { readonly visits: readonly CountedVisit[] }
  | { readonly problem: string };

/** Reads a file of counts. */
export function readCounts(text: string): ReadCounts {
  const read = recordsIn(text, Counts, 'visits', 'visit');
  return 'problem' in read ? read : { visits: read.records };
}

/** Visits as the text of a file of counts. */
export const countsText = (visits: readonly CountedVisit[]): string =>
  recordsText({ proveline: 'counts', version: COUNTS_VERSION }, 'visits', visits);
