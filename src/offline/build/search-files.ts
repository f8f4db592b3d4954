import { gunzipSync } from 'node:zlib';
import {
  CHUNKS,
  chunksOf,
  FRAGMENTS,
  readMeta,
  unsigned,
  wordsByPage,
  wordsPath,
} from '../search-index.ts';
import type { Packable } from './select.ts';

/** A file that packs hold and the server does not. */
export interface MadeFile extends Packable {
  readonly body: Uint8Array<ArrayBuffer>;
}

/** The search index as packs hold it, in place of files that the server has. */
export interface SearchFiles {
  readonly files: readonly MadeFile[];
  /** Paths of files that packs leave out or hold in another form. */
  readonly replaced: ReadonlySet<string>;
}

/**
 * Turns the full-text index about for the packs: by page in place of by word, and with nothing
 * in it compressed by itself, so that what is alike compresses together. An index of another
 * form than this knows, or that would not come back the same, stays as it is.
 */
export async function readSearchFiles(
  paths: readonly string[],
  read: (path: string) => Promise<Uint8Array<ArrayBuffer>>,
): Promise<SearchFiles> {
  const metas = paths.filter((path) => /^pagefind\/[^/]+\.pf_meta$/.test(path));
  const compressed = paths.filter((path) => /^pagefind\/.*\.pf_(meta|fragment|index)$/.test(path));
  if (metas.length !== 1) return { files: [], replaced: new Set() };
  const plain = new Map<string, Uint8Array<ArrayBuffer>>();
  for (const path of compressed) plain.set(path, new Uint8Array(gunzipSync(await read(path))));
  const chunkPaths = compressed.filter((path) => path.startsWith(CHUNKS));
  try {
    const meta = readMeta(plain.get(metas[0]!)!);
    const words = wordsByPage(
      chunkPaths.map((path) => plain.get(path)!),
      meta,
    );
    if (!isSame(chunksOf(meta, words), plain)) return { files: [], replaced: new Set() };
    const fragmentPath = (name: string) => `${FRAGMENTS}${name}.pf_fragment`;
    const pageOf = (name: string) => folderOf(plain.get(fragmentPath(name))!);
    const files: MadeFile[] = [
      made(metas[0]!, plain.get(metas[0]!)!),
      ...meta.fragments.flatMap((name) => [
        made(fragmentPath(name), plain.get(fragmentPath(name))!, pageOf(name)),
        made(wordsPath(name), new TextEncoder().encode(words.get(name)!), pageOf(name)),
      ]),
    ];
    return { files, replaced: new Set(compressed) };
  } catch (failure) {
    if (failure instanceof RangeError || failure instanceof TypeError)
      return { files: [], replaced: new Set() };
    throw failure;
  }
}

const made = (path: string, body: Uint8Array<ArrayBuffer>, page?: string): MadeFile => ({
  path,
  bytes: body.length,
  body,
  ...(page === undefined ? {} : { page }),
});

/** Folder of the page a fragment is of, from the site's base. */
function folderOf(fragment: Uint8Array<ArrayBuffer>): string {
  const { url } = JSON.parse(new TextDecoder().decode(unsigned(fragment))) as { url: string };
  return url.replace(/^\//, '').replace(/index\.html$/, '');
}

function isSame(
  chunks: ReadonlyMap<string, Uint8Array>,
  plain: ReadonlyMap<string, Uint8Array>,
): boolean {
  return [...chunks].every(([path, chunk]) => {
    const original = plain.get(path);
    return original !== undefined && Buffer.compare(chunk, original) === 0;
  });
}
