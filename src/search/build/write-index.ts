import { join } from 'node:path';
import type { Entries } from '../../entries/types.ts';
import type { Named } from '../names.ts';
import { type BuiltPage, type Effects, machine } from './effects.ts';
import { namesOf, placedIn } from './names.ts';
import { wordsKnownIn } from './words.ts';

/**
 * Writes what searching needs into the folder of a built site: the full-text index in
 * `pagefind/`, `search/names.json` with the names of entries and terminals, and
 * `search/words.json` with the words that mistyped ones are put right from, the trade's among them: two files, since
 * an edited summary changes the first alone.
 * @throws Error when the pages cannot be indexed
 */
export async function buildSearchIndex(
  dist: string,
  entries: Entries,
  effects: Effects = machine,
  features: Parameters<typeof namesOf>[1] = {},
): Promise<void> {
  await effects.remove(join(dist, 'pagefind'));
  const pages = await indexedPages(dist, effects);
  const files = (await effects.indexPages(pages)).filter(({ path }) => !isUnused(path));
  await Promise.all(
    files.map(({ path, content }) => effects.write(join(dist, 'pagefind', path), content)),
  );

  const names: Named = { names: namesOf(entries, features), systems: placedIn(entries) };
  await effects.write(join(dist, 'search/names.json'), JSON.stringify(names));
  await effects.write(
    join(dist, 'search/words.json'),
    JSON.stringify(wordsKnownIn(pages.map(({ html }) => html))),
  );
}

/** Mark of a page that is indexed: most of a site are not, and those are large. */
const INDEXED = 'data-pagefind-body';

async function indexedPages(dist: string, { list, read }: Effects): Promise<BuiltPage[]> {
  const paths = (await list(dist)).map(({ path }) => path).filter((path) => path.endsWith('.html'));
  const pages: BuiltPage[] = [];
  for (const path of paths.sort()) {
    const bytes = Buffer.from(await read(join(dist, path)));
    if (bytes.includes(INDEXED)) pages.push({ path, html: bytes.toString() });
  }
  return pages;
}

/** Ready-made search boxes, and the stemmer for pages of unknown language: not used here. */
const isUnused = (path: string) =>
  /^(pagefind-(ui|modular-ui|component-ui|highlight)|wasm\.unknown)\./.test(path);
