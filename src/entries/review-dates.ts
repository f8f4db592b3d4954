import { isOverdue, type Review } from '../../schemas/index.ts';
import type { Simulation } from '../circuit/index.ts';
import { entriesByKind, entryKey, type Kind } from './kinds.ts';
import { makeProblem } from './problem.ts';
import { reportFor } from './report.ts';
import { type Draft, draftOf, READ_PARTS, type ReadPart, readOf } from './seal.ts';
import type { Entries, Entry, Problem } from './types.ts';

/** An entry as far as its reviews go. */
export type Reviewable = Entry<{
  readonly author?: string | undefined;
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

/**
 * A firm's entries that nobody has reviewed as they stand, by folder and name.
 * @param computed every system simulated, by its id
 */
export function draftsOf(
  entries: Entries,
  computed: ReadonlyMap<string, Simulation>,
): Map<string, Draft> {
  return new Map(
    entriesByKind(entries).flatMap(([kind, { folder }, entry]) => {
      if (entry.origin === 'reference') return [];
      const own = entry as Reviewable;
      const read = readOf(own, kind === 'system' ? computed.get(entry.id) : undefined);
      const draft = draftOf(own.data.review, read);
      return draft ? [[entryKey(folder, entry.id), draft] as const] : [];
    }),
  );
}

/** One problem for each entry that nobody is said to have reviewed, or not as it stands. */
export const unreviewed = (entries: Entries, drafts: ReadonlyMap<string, Draft>): Problem[] =>
  entriesByKind(entries).flatMap(([kind, { folder }, entry]) => {
    const draft = drafts.get(entryKey(folder, entry.id));
    const mend =
      entry.origin === 'reference'
        ? SIGN
        : `Read it through, then: npm run review -- ${kind} ${entry.id} --by "your name"`;
    if (draft?.review)
      return makeProblem('review-stale', entry.places.key(['review']), ['review'], stale(draft), {
        mend,
      });
    return draft || isUnreviewed(kind, entry as Reviewable)
      ? makeProblem('review-missing', entry.places.key([]), [], UNREVIEWED, { mend })
      : [];
  });
const UNREVIEWED = 'nobody is said to have reviewed this entry';
const SIGN =
  'Read it through, then add review: { by: your name, on: "YYYY-MM-DD", due: "YYYY-MM-DD" }';

/**
 * Why a review no longer stands, in a clause.
 * @param day a date as it is read where the clause stands
 */
export function stale({ review, changed }: Draft, day = (date: string) => date): string {
  const { by } = review!;
  const on = day(review!.on);
  if (changed.length === 0)
    return `the review by ${by} on ${on} bears no seal, so nobody can tell whether this is what was read`;
  const parts = READ_PARTS.filter((part) => changed.includes(part)).map((part) => PART_WORDS[part]);
  const last = parts.pop()!;
  const said = parts.length > 0 ? `${parts.join(', ')} and ${last}` : last;
  return `${said} changed since ${by} reviewed it on ${on}`;
}

const PART_WORDS: Readonly<Record<ReadPart, string>> = {
  text: 'its text or wiring',
  devices: 'the devices it holds',
  figures: 'the figures it gives',
};

/** Whether two names are one person's, however they are spelt: capitals, stops and spaces aside. */
export const isSamePerson = (a: string, b: string): boolean => plainName(a) === plainName(b);

const plainName = (name: string) =>
  name
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, '');

/** One problem for each entry whose author reviewed it, where the firm asks for a second person. */
export const ownReviews = (entries: Entries): Problem[] =>
  entriesByKind(entries).flatMap(([, , entry]) => {
    const { data, places, origin } = entry as Reviewable;
    const { author, review } = data;
    if (origin === 'reference' || !review || !author || !isSamePerson(review.by, author)) return [];
    const report = reportFor(places);
    report.value('review-own', ['review', 'by'], `${author} wrote this entry and reviewed it`, {
      found: review.by,
      allowed: 'a second person',
    });
    return report.problems;
  });

/** One problem for each entry that is said to have been reviewed on a day after this one, YYYY-MM-DD. */
export const reviewsAhead = (entries: Entries, today: string): Problem[] =>
  entriesByKind(entries).flatMap(([, , entry]) => {
    const { data, places } = entry as Reviewable;
    if (!data.review || data.review.on <= today) return [];
    const report = reportFor(places);
    const message = `the review by ${data.review.by} is of a day that is yet to come`;
    report.value('review-ahead', ['review', 'on'], message, {
      found: data.review.on,
      allowed: `${today} or earlier`,
    });
    return report.problems;
  });

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
