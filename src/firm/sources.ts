import { join, relative } from 'node:path';
import type { CheckOptions, Problem } from '../entries/index.ts';
import { asTyped, isPackage, typedPath } from '../folder/index.ts';
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

/**
 * A problem as it is told where the command runs: with the path of its file from there, so that
 * terminals make it a link, and commands as they are typed there.
 */
export const located = ({ mend, ...problem }: Problem): Problem => ({
  ...problem,
  ...(mend === undefined ? {} : { mend: asTyped(withFirm(mend)) }),
  file: pathOf(problem.file),
});

/** The option by which a further command knows the firm; a firm's own package needs none. */
export const firmFlag = (firm: string | undefined): string =>
  firm === undefined || isPackage() ? '' : ` --firm ${typedPath(relative('.', firm) || '.')}`;

/** A mend with the firm's folder in its commands, as they have to be typed in a clone. */
function withFirm(mend: string): string {
  const flag = firmFlag(firmFolder());
  return flag === ''
    ? mend
    : mend
        .replaceAll(' --firm FOLDER', () => flag)
        .replaceAll(/npm run review -- .*?--by "your name"/g, (command) => `${command}${flag}`);
}

/** Path from where the command runs of a file as entries and problems name it. */
export function pathOf(file: string): string {
  const firm = firmFolder();
  if (firm && file.startsWith(FIRM_PREFIX))
    return relative('.', join(firm, file.slice(FIRM_PREFIX.length))) || '.';
  const root = contentFolder();
  return relative('.', file === root ? root : join(root, file));
}
