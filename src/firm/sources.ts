import { join, relative } from 'node:path';
import type { CheckOptions, Problem } from '../entries/index.ts';
import { type Checked, checkReference } from './check.ts';
import { contentFolder, firmFolder } from './folders.ts';
import { FIRM_PREFIX } from './read.ts';

/**
 * The entries as this process is told to read them, proved, with what is wrong with them.
 * @param options `overdue`: whether an overdue review fails; what the firm's settings say if
 * absent. `step`: told how many of its parts are done.
 */
export const checkSources = (options: Pick<CheckOptions, 'overdue' | 'step'> = {}): Checked =>
  checkReference({
    content: contentFolder(),
    firm: firmFolder(),
    publish: process.env.PROVELINE_PUBLISH === '1',
    ...options,
  });

/** A problem with the path of its file from where the command runs, so that terminals make it a link. */
export const located = (problem: Problem): Problem => ({
  ...problem,
  file: pathOf(problem.file),
});

/** Path from where the command runs of a file as entries and problems name it. */
export function pathOf(file: string): string {
  const firm = firmFolder();
  if (firm && file.startsWith(FIRM_PREFIX))
    return relative('.', join(firm, file.slice(FIRM_PREFIX.length))) || '.';
  const root = contentFolder();
  return relative('.', file === root ? root : join(root, file));
}
