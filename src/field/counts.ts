import { z } from 'zod';
import { HISTORIES } from '../diagnosis/index.ts';
import { CAUSES, Day, Id, Slug } from './file.ts';
import { issueText } from './issue-text.ts';
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
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { problem: 'it is not whole JSON' };
  }
  const read = Counts.safeParse(value);
  if (!read.success) return { problem: issueText(read.error) };
  const ids = read.data.visits.map(({ id }) => id);
  const twice = ids.find((id, i) => ids.indexOf(id) !== i);
  return twice === undefined
    ? { visits: read.data.visits }
    : { problem: `the visit ${twice} stands there twice` };
}

/** Visits as the text of a file of counts: one a line, by day, so that a change is one line. */
export function countsText(visits: readonly CountedVisit[]): string {
  const lines = visits
    .toSorted((a, b) => (`${a.on} ${a.id}` < `${b.on} ${b.id}` ? -1 : 1))
    .map(({ id, on, system, history, family, minutes }) =>
      JSON.stringify({ id, on, system, history, family, minutes }),
    );
  return `{"proveline":"counts","version":${COUNTS_VERSION},"visits":[\n${lines.join(',\n')}\n]}\n`;
}
