import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

/* By itself, so that the page maker need not load more to learn where prose lies. */

/**
 * Proveline's own folder, with its sources, reference and pages: PROVELINE_HOME, which the
 * package's command sets, or where the command runs, as in a clone.
 */
export const homeFolder = (): string => resolve(process.env.PROVELINE_HOME ?? '.');

/** Whether it is a package of the firm's that runs, and not a clone. */
export const isPackage = (): boolean => process.env.PROVELINE_HOME !== undefined;

/** Proveline's own version. */
export const ownVersion = (): string =>
  JSON.parse(readFileSync(join(homeFolder(), 'package.json'), 'utf8')).version;

/** Where results are kept from build to build: PROVELINE_KEPT, or among the packages' own. */
export const keptFolder = (): string =>
  resolve(process.env.PROVELINE_KEPT ?? 'node_modules/.cache/proveline');
