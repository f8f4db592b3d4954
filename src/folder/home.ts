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

/**
 * A text with its commands as they are typed here: in a firm's package, which knows its own
 * folder, `npx proveline check`; in a clone as they are written, `npm run check -- --firm FOLDER`.
 */
export const asTyped = (text: string): string =>
  isPackage()
    ? text
        .replaceAll(/npm run ([a-z]+) \[-- /g, 'npx proveline $1 [')
        .replaceAll(/npm run ([a-z]+)(?: --(?= ))?(?: --firm FOLDER\b)?/g, 'npx proveline $1')
    : text;

/** A path as it is typed in a shell: in quotation marks where it holds more than plain characters. */
export const typedPath = (path: string): string =>
  /^[\w@%+=:,./~-]+$/.test(path) ? path : `"${path.replaceAll(/["\\$`]/g, '\\$&')}"`;

/** Proveline's own version. */
export const ownVersion = (): string =>
  JSON.parse(readFileSync(join(homeFolder(), 'package.json'), 'utf8')).version;

/** Where results are kept from build to build: PROVELINE_KEPT, or among the packages' own. */
export const keptFolder = (): string =>
  resolve(process.env.PROVELINE_KEPT ?? 'node_modules/.cache/proveline');
