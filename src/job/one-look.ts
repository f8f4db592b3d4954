import { type Entry, enterFound, type Job, type Making, making } from './job.ts';
import { outcomeIn, type Sheet } from './sheet.ts';

/**
 * The job with one look that settles several outcomes: the position that something was found in,
 * and with it every other one in which it then is not.
 * @param seen the outcome found, one of `all`.
 */
export function enterOneOf(
  job: Job,
  mode: string,
  seen: string,
  all: readonly string[],
  how: Making = making,
): Job {
  const others = all.filter((outcome) => outcome !== seen);
  return [...others, seen].reduce(
    (now, outcome) =>
      enterFound(
        now,
        { kind: 'look', mode, outcome, answer: outcome === seen ? 'seen' : 'not seen' },
        '',
        how,
      ),
    job,
  );
}

/**
 * Whether an entry says no more than another beside it: that a valve is not at hot water, where
 * it was felt at heating in the same look.
 */
export function isSaidByAnother(sheet: Sheet, entries: readonly Entry[], entry: Entry): boolean {
  const { observation: o, round } = entry;
  if (o.kind !== 'look' || o.answer !== 'not seen') return false;
  const oneOf: readonly string[] = outcomeIn(sheet, o.outcome)?.oneOf ?? [];
  return entries.some(
    ({ observation: other, round: then }) =>
      other.kind === 'look' &&
      other.answer === 'seen' &&
      other.mode === o.mode &&
      then === round &&
      other.outcome !== o.outcome &&
      oneOf.includes(other.outcome),
  );
}
