import { buildNetwork, type Simulation, simulate } from '../circuit/index.ts';
import type { Judgement } from '../standards/index.ts';
import { type Effects, fileSystem } from './effects.ts';
import { expectationProblems } from './expectations.ts';
import { type Explained, explainedByWiring } from './explained.ts';
import { type Conflict, conflictsAsOne, conflictsOf } from './firm-conflicts.ts';
import { FIRM_CONTENT, type FirmLayer } from './firm-layer.ts';
import { type Loaded, loadEntries } from './load.ts';
import { inOrder } from './problem.ts';
import { reportFor } from './report.ts';
import { draftsOf, overdueReviews, ownReviews, reviewsAhead, unreviewed } from './review-dates.ts';
import type { Draft } from './seal.ts';
import { asWarning, standardsProof } from './standards-proof.ts';
import { symptomSoundProblems } from './symptom-proof.ts';
import { termProblems } from './terms.ts';
import { textProblems } from './text-held.ts';
import type { Entries, Problem } from './types.ts';

/** What a check may be told; the defaults are what the commands use. */
export interface CheckOptions {
  /** Day by which exceptions hold and reviews are due, YYYY-MM-DD; today if absent. */
  readonly today?: string;
  /** Whether a review that is overdue is told or fails. */
  readonly overdue?: 'warn' | 'fail';
  /** Whether the reviewer of an entry must be another than its author. */
  readonly secondPerson?: boolean | undefined;
  /** A firm's folder laid over the content folder; its own entries alone can then fail by a date. */
  readonly firm?: FirmLayer | undefined;
  /** Told after each system that is simulated, and again after each that is judged. */
  readonly step?: ((done: number, of: number) => void) | undefined;
}

/** A content folder, read and proved. */
export interface Checked extends Loaded, Proved {}

/** What proving the entries gives. */
interface Proved {
  readonly problems: readonly Problem[];
  /** What is told and fails nothing, in order of file and place. */
  readonly warnings: readonly Problem[];
  /** A firm's entries that nobody has reviewed as they stand, by folder and name. */
  readonly drafts: ReadonlyMap<string, Draft>;
  /** What a firm's standards ask for and the reference's own systems do not meet. */
  readonly conflicts: readonly Conflict[];
  /** What every house standard says of every sound system, by system id. */
  readonly judgements: ReadonlyMap<string, readonly Judgement[]>;
}

/**
 * Reads a content folder and proves it: every problem of its files, every difference
 * between what its systems expect and what the engine computes from them, every symptom
 * that a sound system shows, and every house standard that a system does not meet.
 */
export function checkEntries(
  root: string,
  effects: Effects = fileSystem,
  options: CheckOptions = {},
): Checked {
  const loaded = loadEntries(root, effects, options.firm);
  const { folded, ...proved } = proveEntries(loaded, options);
  const left = loaded.problems.filter((problem) => !folded.has(problem));
  return { ...loaded, ...proved, problems: inOrder([...left, ...proved.problems]) };
}

/** Simulates every system and compares; what the engine refuses is a problem too. */
export const provingProblems = (entries: Entries): readonly Problem[] =>
  proveEntries({ entries, misread: new Map(), problems: [], hidden: new Map() }).problems;

function proveEntries(
  { misread, hidden, ...loaded }: Omit<Loaded, 'files'>,
  { today = calendarDay(), overdue = 'warn', secondPerson, firm, step }: CheckOptions = {},
): Proved & Pick<Explained, 'folded'> {
  // A slip of wiring may be all that is wrong with what prose reads.
  const entries = {
    ...loaded.entries,
    systems: new Map([...loaded.entries.systems, ...misread]),
  };
  const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
  const computed = new Map<string, Simulation>();
  const refused: Problem[] = [];
  let done = 0;
  const advance = () => step?.(++done, 2 * entries.systems.size);
  for (const [id, { data, places }] of entries.systems) {
    try {
      computed.set(id, simulate(buildNetwork(id, data, devices)));
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      const report = reportFor(places);
      report.key('circuit-refused', [], `the circuit cannot be computed: ${error.message}`);
      refused.push(...report.problems);
    }
    advance();
  }
  const standards = standardsProof(entries, computed, today, advance);
  // What the reference says of its own systems is nothing that a firm could mend.
  const isOwn = ({ file }: Problem) => !firm || file.startsWith(FIRM_CONTENT);
  const late = overdueReviews(entries, today);
  const failing = overdue === 'fail' ? late.filter(isOwn) : [];
  const { problems: differing, folded } = explainedByWiring(
    entries,
    computed,
    expectationProblems(entries, computed),
    misread,
    loaded.problems,
  );
  const conflicts = firm ? conflictsOf(entries, standards.judgements) : [];
  const problems = [
    ...refused,
    ...differing,
    ...symptomSoundProblems(entries, computed),
    ...conflictsAsOne(entries, conflicts, standards.problems),
    ...failing,
    ...(secondPerson ? ownReviews(entries) : []),
  ];
  const drafts = draftsOf(entries, computed);
  const told = standards.warnings.filter(
    (problem) => problem.code !== 'exception-unneeded' || isOwn(problem),
  );
  const warnings = [
    ...told,
    ...late.filter((problem) => !failing.includes(problem)).map(asWarning),
    ...reviewsAhead(entries, today).filter(isOwn).map(asWarning),
    ...unreviewed(entries, drafts).filter(isOwn).map(asWarning),
    ...[...termProblems(entries), ...textProblems(entries, hidden)].filter(isOwn).map(asWarning),
  ];
  return {
    problems,
    folded,
    warnings: inOrder(warnings),
    drafts,
    conflicts,
    judgements: standards.judgements,
  };
}

/** The day of this run, or of SOURCE_DATE_EPOCH, so that a build can be made again. */
export function calendarDay(): string {
  const epoch = process.env.SOURCE_DATE_EPOCH;
  const now = epoch ? new Date(Number(epoch) * 1000) : new Date();
  return now.toISOString().slice(0, 10);
}

/** The same day a year later, YYYY-MM-DD. */
export function yearAfter(day: string): string {
  const next = `${Number(day.slice(0, 4)) + 1}${day.slice(4)}`;
  return next.endsWith('02-29') ? next.replace('02-29', '03-01') : next;
}
