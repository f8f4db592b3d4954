import { createHash } from 'node:crypto';
import type { Sized } from '../../folder/index.ts';
import { isPage, systemOf, VERSION_FILE } from '../manifest.ts';
import { isWorkerFile } from '../paths.ts';
import { WORDS } from '../search-index.ts';

/** What a pack holds. */
export type PackKind = 'assets' | 'lists' | 'pages' | 'search';

/** Files that go into one pack together. */
export interface PackPlan {
  readonly kind: PackKind;
  /** The one system that all of them belong to. */
  readonly system?: string;
  readonly paths: readonly string[];
}

/** A file, and the folder of the page that it is made from where that is not its own. */
export interface Packable extends Sized {
  readonly page?: string;
}

/**
 * Most a pack may come to, compressed, as far as can be told before it is: what an edited word
 * costs, for each pack that it stands in, and a cut connection. Smaller packs compress worse
 * and are more requests.
 */
const FULL_PACK = 20 * 1024;

/** The same for lists of entries, of which any edit changes some, and for the words of pages. */
const FULL: Readonly<Partial<Record<PackKind, number>>> = { lists: 3 * 1024, search: 6 * 1024 };

/** How many bytes of a file make one compressed, by the ending of its name; others: one. */
const DENSITY: Readonly<Record<string, number>> = {
  css: 4,
  html: 11,
  js: 3,
  json: 8,
  pf_fragment: 4,
  pf_words: 4,
  svg: 4,
  txt: 3,
};

/**
 * Says which files are saved for offline use and which pack each goes into. Files that only
 * authors, servers and machines read are left out. What an edit changes together lies together:
 * an entry's page with its part of the index, and all lists of entries. Which pack a file is in
 * depends on its path alone, and on its neighbours only when a pack grows too full and is
 * halved, so an edit leaves every other pack as it was.
 */
export function planPacks(files: readonly Packable[]): PackPlan[] {
  const groups = Map.groupBy(
    files.filter(({ path }) => !isLeftOut(path)),
    (file) => [kindOf(file), systemOf(file.path) ?? ''].join(' '),
  );
  return [...groups]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([name, group]) => {
      const [kind, system] = name.split(' ') as [PackKind, string];
      return halved(group, FULL[kind] ?? FULL_PACK, 0).map((paths) => ({
        kind,
        ...(system ? { system } : {}),
        paths,
      }));
    });
}

/** Packs of a group: halved by the next bit of what each file goes by, until none is too full. */
function halved(files: readonly Packable[], full: number, depth: number): string[][] {
  const units = new Set(files.map(unitOf));
  if (units.size <= 1 || weightOf(files) <= full)
    return files.length === 0 ? [] : [files.map(({ path }) => path).sort()];
  const bit = (file: Packable) => bitOf(unitOf(file), depth);
  return [0, 1].flatMap((side) =>
    halved(
      files.filter((file) => bit(file) === side),
      full,
      depth + 1,
    ),
  );
}

/** A bit of the hash of a name. */
function bitOf(name: string, depth: number): number {
  const hash = createHash('sha256').update(name).digest();
  return (hash[depth >> 3]! >> (7 - (depth & 7))) & 1;
}

/** What a file goes by: the folder of the page it belongs to, which an edit changes as a whole. */
const unitOf = ({ path, page }: Packable): string => page ?? path.replace(/index\.html$/, '');

const weightOf = (files: readonly Packable[]) =>
  files.reduce((sum, { path, bytes }) => sum + bytes / (DENSITY[endingOf(path)] ?? 1), 0);

const endingOf = (path: string) => /[^.]*$/.exec(path)![0];

function kindOf({ path, page }: Packable): PackKind {
  if (/^([^/]+\/)?index\.html$/.test(path) || /^search\/|pf_meta$|-entry\.json$/.test(path))
    return 'lists';
  if (path.startsWith(WORDS)) return 'search';
  if (isPage(path) || page !== undefined) return 'pages';
  return path.startsWith('pagefind/') ? 'search' : 'assets';
}

const isLeftOut = (path: string) =>
  path === VERSION_FILE ||
  isWorkerFile(path) ||
  path.startsWith('data/') ||
  path.startsWith('schemas/') ||
  path.startsWith('screenshots/') ||
  /^_[^/]*$/.test(path) ||
  /(^|\/)\./.test(path) ||
  /^(robots\.txt|sitemap.*\.xml)$/.test(path) ||
  path.endsWith('.map');
