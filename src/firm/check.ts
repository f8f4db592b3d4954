import {
  type CheckOptions,
  checkEntries,
  type Effects,
  fileSystem,
  inOrder,
  type Checked as Proved,
} from '../entries/index.ts';
import { type FirmFolder, readFirm } from './read.ts';

/** Where a reference is read from, and on what day. */
export interface Sources extends Pick<CheckOptions, 'today' | 'overdue' | 'step'> {
  /** The reference's content folder. */
  readonly content: string;
  /** A firm's folder laid over it. */
  readonly firm?: string | undefined;
  readonly effects?: Effects;
}

/** A reference as read and proved, with the firm's settings over it. */
export interface Checked extends Proved {
  readonly firm?: FirmFolder;
}

/** Reads and proves a content folder, with a firm's folder over it where there is one. */
export function checkReference({
  content,
  firm,
  effects = fileSystem,
  ...options
}: Sources): Checked {
  if (firm === undefined) return checkEntries(content, effects, options);
  const read = readFirm(firm, effects);
  const overdue = options.overdue ?? read.firm?.settings.reviews.overdue ?? 'warn';
  const checked = checkEntries(content, effects, { ...options, overdue, firm: read.layer });
  return {
    ...checked,
    ...(read.firm ? { firm: read.firm } : {}),
    problems: inOrder([...read.problems, ...checked.problems]),
  };
}
