import type { Sized } from '../../folder/index.ts';
import { isPage } from '../manifest.ts';
import { isWorkerFile } from '../paths.ts';

/** What a pack holds. */
export type PackKind = 'pages' | 'assets' | 'search' | 'data';

/** Open data is saved with the rest only up to this many bytes, before compression. */
const SMALL_DATA = 256 * 1024;

/**
 * Most bytes of files in one pack, before compression: what a cut connection costs at most.
 * Compression looks back 32 KiB, so smaller packs are hardly larger in sum.
 */
const FULL_PACK = 1024 * 1024;

/** Files that go into one pack together. */
export interface PackPlan {
  readonly kind: PackKind;
  readonly paths: readonly string[];
}

/**
 * Says which files are saved for offline use and which pack each goes into. Files that only
 * authors, servers and machines read are left out. The plan depends on nothing but the files.
 */
export function planPacks(files: readonly Sized[]): PackPlan[] {
  const data = files.filter(({ path }) => path.startsWith('data/'));
  const keepData = data.reduce((sum, { bytes }) => sum + bytes, 0) <= SMALL_DATA;
  const saved = files
    .map((file) => ({ ...file, kind: kindOf(file.path) }))
    .filter(({ path, kind }) => !isLeftOut(path) && (kind !== 'data' || keepData))
    .sort((a, b) => (a.path < b.path ? -1 : 1));
  return (['assets', 'pages', 'search', 'data'] as const).flatMap((kind) =>
    fill(saved.filter((file) => file.kind === kind)).map((paths) => ({ kind, paths })),
  );
}

/** Packs in order of path, each closed before it overflows; a larger file has its own. */
function fill(files: readonly Sized[]): string[][] {
  const packs: string[][] = [];
  let room = 0;
  for (const { path, bytes } of files) {
    if (bytes > room || packs.length === 0) {
      packs.push([]);
      room = FULL_PACK;
    }
    packs.at(-1)!.push(path);
    room -= bytes;
  }
  return packs;
}

function kindOf(path: string): PackKind {
  if (path.startsWith('data/')) return 'data';
  if (isPage(path)) return 'pages';
  return path.startsWith('pagefind/') || path.startsWith('search/') ? 'search' : 'assets';
}

const isLeftOut = (path: string) =>
  isWorkerFile(path) ||
  path.startsWith('schemas/') ||
  path.startsWith('screenshots/') ||
  /^_[^/]*$/.test(path) ||
  /(^|\/)\./.test(path) ||
  /^(robots\.txt|sitemap.*\.xml)$/.test(path) ||
  path.endsWith('.map');
