import type { DeskState } from './desk-state.ts';
import type { NextTest } from './findings.ts';
import { isKnown, type Job, jobTitle, openEntries } from './job.ts';
import type { Visit } from './kept-visits.ts';
import { dayText } from './record.ts';
import { itemIn, refOf, type Sheet } from './sheet.ts';
import { standingOf } from './standing.ts';
import { systemIdOf } from './subject.ts';
import { askedText } from './words.ts';

/** What the desk knows of the jobs and of the one that is open. */
export type Known = Pick<
  DeskState,
  'jobs' | 'job' | 'place' | 'sheet' | 'findings' | 'next' | 'choosing'
>;

/** Most jobs that are listed. */
const MOST_VISITS = 20;

/**
 * The jobs left open, the last touched first. The next act of the open one is what its engine
 * proposes; that of another is what was known before, as long as the job has not changed.
 */
export function visitsOf(known: Known, before: readonly Visit[]): Visit[] {
  const { jobs, job } = known;
  const all = job ? [job, ...jobs.filter(({ id }) => id !== job.id)] : [...jobs];
  return all
    .filter(({ finished }) => finished === null)
    .toSorted((a, b) => (a.changed < b.changed ? 1 : -1))
    .slice(0, MOST_VISITS)
    .map((one) => {
      const old = before.find(({ id, changed }) => id === one.id && changed === one.changed);
      const next = one === job ? nextOf(known, one) : null;
      return visitOf(one, next ?? old?.next ?? '');
    });
}

/** A job as it is listed, with its next act where that is known. */
export function visitOf(job: Job, next = ''): Visit {
  const title = jobTitle(job);
  const found = openEntries(job).filter(({ told }) => !told).length;
  const stands = [
    `${found === 1 ? '1 finding' : `${found} findings`}${job.repairs.length > 0 ? ' since the repair' : ''}`,
    dayText(job.changed),
    ...(title === job.systemTitle || !isKnown(job) ? [] : [job.systemTitle]),
  ].join(', ');
  return { id: job.id, title, system: systemIdOf(job), stands, next, changed: job.changed };
}

/** The next act in words; null while the engine is still at it. */
export function nextOf({ place, sheet, findings, next, choosing }: Known, job: Job): string | null {
  if (!isKnown(job)) return 'Find out which system it is.';
  if (place.draft) return 'Finish what is half entered.';
  if (!sheet || !findings || choosing || next === undefined) return null;
  const standing = standingOf(sheet, findings, next);
  if (standing?.title === 'Found') return `Found: ${standing.lines[0]}`;
  if (findings.foundThere.length > 0) return 'Say what was found.';
  if (next === null)
    return job.repairs.length > 0
      ? 'Prove every mode.'
      : 'No further test helps: compare the wiring.';
  return nextText(sheet, next);
}

/** A test as the home page names it: never without what it asks for, and a live one by its place alone. */
export function nextText(sheet: Sheet, { asked }: NextTest): string {
  switch (asked.kind) {
    case 'look':
      return `Look: ${askedText(sheet, asked)}`;
    case 'live': {
      const ref = refOf(asked.from);
      return `Live work at ${ref} ${itemIn(sheet, ref)?.title ?? ''}: competent persons only, tester proved, GS38 leads.`;
    }
    default:
      return `Isolated and proved dead: ${askedText(sheet, asked)}.`;
  }
}
