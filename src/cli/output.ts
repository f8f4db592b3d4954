import { existsSync, readdirSync, realpathSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';

/** The folder a build writes to when none is asked for. */
export const OUT = 'dist';

/** What every build leaves at the top of its output. */
const BUILT = ['_astro', 'offline', 'pagefind'];

/**
 * The folder to build into. A build empties it first, so it is refused where that could lose
 * anything else.
 * @param kept folders that must not be touched: the project, its content, a firm's folder
 * @throws Error that says why
 */
export function outputFolder(asked: string | undefined, kept: readonly string[]): string {
  const out = real(resolve(asked ?? OUT));
  const said = asked ?? OUT;
  for (const folder of kept)
    if (isWithin(out, real(folder)))
      throw new Error(
        `--out ${said} holds ${folder}, and a build empties its folder first. Name a folder of its own, as --out ../site`,
      );
  const source = kept.map(real).find((folder) => isWithin(join(folder, 'content'), out));
  if (source !== undefined)
    throw new Error(`--out ${said} lies among the entries of ${source}. Name a folder elsewhere`);
  if (asked !== undefined && existsSync(out)) {
    const there = readdirSync(out).filter((name) => name !== '.git');
    if (there.length > 0 && !there.some((name) => BUILT.includes(name)))
      throw new Error(
        `--out ${said} holds files that no build put there, as ${there[0]}. Name an empty folder or one built before`,
      );
  }
  return out;
}

/** Whether a path is a folder or lies in it. */
function isWithin(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way === '' || (way !== '..' && !way.startsWith(`..${sep}`) && resolve(way) !== way);
}

/** A path with the links of what exists of it followed. */
function real(path: string): string {
  if (existsSync(path)) return realpathSync(path);
  const above = dirname(path);
  return above === path ? path : join(real(above), basename(path));
}
