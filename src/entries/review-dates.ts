import { isOverdue, type Review } from '../../schemas/index.ts';
import { reportFor } from './report.ts';
import type { Entries, Entry, Problem } from './types.ts';

/** One problem for each entry whose review was due before a day, YYYY-MM-DD. */
export function overdueReviews(entries: Entries, today: string): Problem[] {
  const all: readonly ReadonlyMap<string, Entry<{ readonly review?: Review | undefined }>>[] =
    Object.values(entries);
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
