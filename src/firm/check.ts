import type { Review } from '../../schemas/index.ts';
import {
  type CheckOptions,
  checkEntries,
  type Effects,
  entriesByKind,
  fileSystem,
  inOrder,
  makeProblem,
  type Problem,
  type Checked as Proved,
  type Reviewable,
} from '../entries/index.ts';
import { type FirmFolder, readFirm } from './read.ts';
import { recordFrom, recordPath } from './review.ts';

/** Where a reference is read from, on what day, and for whom. */
export interface Sources extends Pick<CheckOptions, 'today' | 'overdue' | 'step'> {
  /** The reference's content folder. */
  readonly content: string;
  /** A firm's folder laid over it. */
  readonly firm?: string | undefined;
  readonly effects?: Effects;
  /** Whether it is handed to readers: a firm's drafts are then refused or left out, as it says. */
  readonly publish?: boolean;
}

/** A reference as read and proved, with the firm's settings over it. */
export interface Checked extends Proved {
  readonly firm?: FirmFolder;
  /** The firm's own entries that were left out as drafts, by folder and name. */
  readonly leftOut: readonly string[];
}

/** What is told of drafts as warnings, where it stands in the way of publishing. */
const draftProblems = ({ warnings }: Proved): Problem[] =>
  warnings.filter(isDraft).map(({ warning, ...problem }) => problem);

const isDraft = ({ code }: Problem): boolean =>
  code === 'review-missing' || code === 'review-stale' || code === 'review-altered';

/**
 * One problem for each entry of the firm's whose review names another person or day than the
 * record of what that very review read. Where there is no record of it, nothing can be said.
 */
function alteredReviews({ entries }: Proved, firm: string, effects: Effects): Problem[] {
  return entriesByKind(entries).flatMap(([, { folder }, entry]) => {
    const { data, places, origin, id } = entry as Reviewable;
    const { review } = data;
    if (origin === 'reference' || review?.seal === undefined) return [];
    const path = recordPath(folder, id);
    const record = recordIn(`${firm}/${path}`, effects);
    if (record?.seal !== review.seal) return [];
    if (record.by === review.by && record.on === review.on) return [];
    return makeProblem(
      'review-altered',
      places.value(['review']),
      ['review'],
      `${path} says that ${record.by} reviewed it on ${record.on}`,
      { found: `${review.by}, ${review.on}`, allowed: `${record.by}, ${record.on}` },
    );
  });
}

function recordIn(file: string, effects: Effects): Review | undefined {
  try {
    return recordFrom(new TextDecoder().decode(effects.read(file)))?.review;
  } catch {
    return undefined;
  }
}

/** Reads and proves a content folder, with a firm's folder over it where there is one. */
export function checkReference({
  content,
  firm,
  effects = fileSystem,
  publish = false,
  ...options
}: Sources): Checked {
  if (firm === undefined) return { ...checkEntries(content, effects, options), leftOut: [] };
  const read = readFirm(firm, effects);
  const reviews = read.firm?.settings.reviews;
  const check = (leftOut: readonly string[]) =>
    checkEntries(content, effects, {
      ...options,
      overdue: options.overdue ?? reviews?.overdue ?? 'warn',
      secondPerson: reviews?.['second person'],
      firm: read.layer && { ...read.layer, without: new Set(leftOut) },
    });
  let leftOut: string[] = [];
  let checked = check(leftOut);
  // What is left out may leave another entry without what was read of it.
  while (publish && reviews?.drafts === 'leave out' && checked.drafts.size > 0) {
    leftOut = [...leftOut, ...checked.drafts.keys()];
    checked = check(leftOut);
  }
  const altered = alteredReviews(checked, firm, effects);
  checked = {
    ...checked,
    warnings: inOrder([
      ...checked.warnings,
      ...altered.map((one) => ({ ...one, warning: true as const })),
    ]),
  };
  const refused = publish ? draftProblems(checked) : [];
  return {
    ...checked,
    ...(read.firm ? { firm: read.firm } : {}),
    leftOut,
    warnings:
      refused.length > 0 ? checked.warnings.filter((one) => !isDraft(one)) : checked.warnings,
    problems: inOrder([...read.problems, ...checked.problems, ...refused]),
  };
}
