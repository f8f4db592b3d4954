import { type Asked, type Found, find, findNames, type SearchPages } from './find.ts';
import type { Vocabulary } from './names.ts';
import { openPages } from './pagefind.ts';
import { readNames } from './reading.ts';
import { indexOf } from './words-index.ts';

/** Path of the site's base, ending in a slash. */
export const base = `${import.meta.env.BASE_URL.replace(/\/$/, '')}/`;

/** Time after the last letter before the pages' text is searched, milliseconds. */
const PAUSE_MS = 120;

let vocabulary: Promise<Vocabulary> | undefined;
let pages: Promise<SearchPages> | undefined;

/** Names and words of the reference, fetched and read once; again after a failure. */
export function loadVocabulary(): Promise<Vocabulary> {
  const load = async (name: string) => (await fetch(`${base}search/${name}.json`)).json();
  vocabulary ??= Promise.all([load('names'), load('words')]).then(([named, words]) => {
    const loaded: Vocabulary = { ...named, words };
    readNames(loaded);
    indexOf(loaded.names);
    return loaded;
  });
  vocabulary.catch(() => {
    vocabulary = undefined;
  });
  return vocabulary;
}

function loadPages(): Promise<SearchPages> {
  pages ??= openPages(base);
  pages.catch(() => {
    pages = undefined;
  });
  return pages;
}

/** What is asked of {@link makeAsker}; the page the reader is on is added to it. */
export type Question = Omit<Asked, 'here'>;

/** What is shown: found so far, and whether that is all; or that nothing could be loaded. */
export interface Shown {
  readonly question: Question;
  readonly found?: Found;
  readonly final: boolean;
  readonly failed?: boolean;
}

/**
 * Makes a function that answers questions as they are typed: names at once, then pages after
 * a pause. An answer that a later question has overtaken is not shown.
 */
export function makeAsker(show: (shown: Shown) => void): (question: Question) => Promise<void> {
  let latest = 0;
  return async (question) => {
    latest += 1;
    const number = latest;
    const isLatest = () => number === latest;
    const asked = { ...question, here: location.pathname.slice(base.length) };
    let names: Vocabulary;
    try {
      names = await loadVocabulary();
    } catch {
      if (isLatest()) show({ question, final: true, failed: true });
      return;
    }
    if (!isLatest()) return;
    show({ question, found: findNames(asked, names), final: false });
    if (question.typing) await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
    if (!isLatest()) return;
    const found = await findAll(asked, names);
    if (isLatest()) show({ question, found, final: true });
  };
}

/** Everything; without the pages' text where its index cannot be had. */
async function findAll(asked: Asked, names: Vocabulary): Promise<Found> {
  try {
    return await find(asked, names, await loadPages());
  } catch {
    return find(asked, names, async () => []);
  }
}
