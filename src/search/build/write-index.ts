import { join } from 'node:path';
import type { Entries } from '../../entries/types.ts';
import type { Named } from '../names.ts';
import { type Effects, machine } from './effects.ts';
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
): Promise<void> {
  await effects.remove(join(dist, 'pagefind'));
  for (const { path, content } of await effects.indexPages(dist))
    if (!isUnused(path)) await effects.write(join(dist, 'pagefind', path), content);

  const pages: string[] = [];
  for (const { path } of await effects.list(dist))
    if (path.endsWith('.html'))
      pages.push(new TextDecoder().decode(await effects.read(join(dist, path))));
  const names: Named = { names: namesOf(entries), systems: placedIn(entries) };
  await effects.write(join(dist, 'search/names.json'), JSON.stringify(names));
  await effects.write(join(dist, 'search/words.json'), JSON.stringify(wordsKnownIn(pages)));
}

/** Ready-made search boxes, and the stemmer for pages of unknown language: not used here. */
const isUnused = (path: string) =>
  /^(pagefind-(ui|modular-ui|component-ui|highlight)|wasm\.unknown)\./.test(path);
