import { isOverdue, type Review } from '../../schemas/index.ts';
import { entriesByKind, type Kind } from './kinds.ts';
import { makeProblem } from './problem.ts';
import { reportFor } from './report.ts';
import type { Entries, Entry, Problem } from './types.ts';

/** An entry as far as its reviews go. */
export type Reviewable = Entry<{
  readonly review?: Review | undefined;
  readonly checked?: string | undefined;
}>;

/** Kinds whose entries in the reference are words of the trade, with no date of their own. */
const UNDATED: readonly Kind[] = ['device', 'term'];

/**
 * Whether nobody is said to have read an entry: of a firm's, that nobody is named; of the
 * reference's own, which no person reviews, that it was not checked either.
 */
export const isUnreviewed = (kind: Kind, { origin, data }: Reviewable): boolean =>
  origin === 'reference'
    ? !UNDATED.includes(kind) && data.review === undefined && data.checked === undefined
    : data.review === undefined;

/** One problem for each entry that nobody is said to have reviewed. */
export const unreviewed = (entries: Entries): Problem[] =>
  entriesByKind(entries).flatMap(([kind, , entry]) =>
    isUnreviewed(kind, entry as Reviewable)
      ? [makeProblem('review-missing', entry.places.key([]), [], UNREVIEWED, { mend: SIGN })]
      : [],
  );
const UNREVIEWED = 'nobody is said to have reviewed this entry';
const SIGN =
  'Read it through, then add review: { by: your name, on: "YYYY-MM-DD", due: "YYYY-MM-DD" }';

/** One problem for each entry whose review was due before a day, YYYY-MM-DD. */
export function overdueReviews(entries: Entries, today: string): Problem[] {
  const all: readonly ReadonlyMap<string, Reviewable>[] = Object.values(entries);
  return all.flatMap((kind) =>
    [...kind.values()].flatMap(({ data: { review }, places }) => {
      if (!review || !isOverdue(review, today)) return [];
      const report = reportFor(places);
      const message = `the review was due on ${review.due}; ${review.by} made the last one on ${review.on}`;
      report.value('review-overdue', ['review', 'due'], message, {
        found: review.due,
        allowed: `${today} or later`,
      });
      return report.problems;
    }),
  );
}
