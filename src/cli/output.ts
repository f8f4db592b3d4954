import { existsSync, readdirSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';

/** The folder a build writes to when none is asked for. */
export const OUT = 'dist';

/** What every build leaves at the top of its output. */
const BUILT = ['_astro', 'offline', 'pagefind'];
/** What a built site alone holds. */
export const BUILT_MARK = join('offline', 'manifest.json');

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

/**
 * The folder to write PDFs into: the one asked for, or `pack` in the site they are printed from.
 * @throws Error where it is a file, or a folder that is put on the web and emptied by a build
 */
export function packFolder(asked: string | undefined, site: string): string {
  const own = join(site, 'pack');
  if (asked === undefined) return own;
  const out = real(resolve(asked));
  if (existsSync(out) && !statSync(out).isDirectory())
    throw new Error(`--out ${asked} is a file. Name a folder, as --out ../papers`);
  if (isWithin(real(resolve(own)), out)) return asked;
  const built = [out, ...above(out)].find((folder) => existsSync(join(folder, BUILT_MARK)));
  if (built !== undefined) {
    const [how, named] = built === out ? ['is', asked] : ['lies in', relative('.', built)];
    throw new Error(
      `--out ${asked} ${how} a built site, and its next build would empty it. Name a folder elsewhere; to print that site’s own pages: npm run pack -- --from ${named}`,
    );
  }
  if (existsSync(join(out, 'index.html')))
    throw new Error(
      `--out ${asked} is a web folder: it holds an index.html. Name a folder of its own, as --out ../papers`,
    );
  return asked;
}

/** The folders that hold a path, innermost first. */
function above(path: string): string[] {
  const outer = dirname(path);
  return outer === path ? [] : [outer, ...above(outer)];
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
