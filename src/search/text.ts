/** Lower case without accents, so that what is typed and what is written compare. */
export const fold = (text: string): string =>
  text
    .normalize('NFKD')
    .replaceAll(/\p{M}+/gu, '')
    .replaceAll('’', "'")
    .toLowerCase();

/** Folded words with single spaces between: `S/L, two-wire` is `s l two wire`. */
export const spaced = (text: string): string =>
  fold(text)
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

/** Folded letters and digits alone: `S/L` and `sl` are one. */
export const joined = (text: string): string => spaced(text).replaceAll(' ', '');

/** The words of a text, folded. */
export function wordsOf(text: string): string[] {
  const words = spaced(text);
  return words === '' ? [] : words.split(' ');
}

/** A piece of text; marked where it is what was searched for. */
export interface Segment {
  readonly text: string;
  readonly marked: boolean;
}

/**
 * Whether a text holds every word of a query: as a whole word when it has one or two letters,
 * else as the start of a word, an ending such as -s, -ed, -ing aside.
 */
export function holds(text: string, query: string): boolean {
  const words = new Set(wordsOf(text));
  return wordsOf(query).every((term) => [...words].some((word) => matches(word, term)));
}

/** Shortest word whose ending may be left aside. */
const SHORTEST_STEM = 4;

function matches(word: string, term: string): boolean {
  if (term.length < 3) return word === term;
  return word.startsWith(term) || word.startsWith(stem(term));
}

function stem(term: string): string {
  const short = term.replace(/(ing|ed|es|s|ic|al)$/, '');
  return short.length >= SHORTEST_STEM ? short : term;
}

/**
 * The stretch of a text that holds most of a query's words, those words marked; its beginning
 * when it holds none.
 * @param length words of the text shown at most
 */
export function excerpt(text: string, query: string, length = 24): Segment[] {
  const terms = wordsOf(query);
  const words = text.split(/\s+/).filter((word) => word !== '');
  const found = words.map((word) => {
    const parts = wordsOf(word);
    return terms.findIndex((term) => parts.some((part) => matches(part, term)));
  });
  const start = bestStart(found, length);
  const end = Math.min(words.length, start + length);
  const segments: Segment[] = [];
  const add = (piece: string, marked: boolean) => {
    const last = segments.at(-1);
    if (last && last.marked === marked)
      segments[segments.length - 1] = { text: last.text + piece, marked };
    else segments.push({ text: piece, marked });
  };
  if (start > 0) add('… ', false);
  for (let i = start; i < end; i++) {
    const marked = found[i]! >= 0;
    add(words[i]!, marked);
    if (i + 1 < end) add(' ', marked && found[i + 1]! >= 0);
  }
  if (end < words.length) add(' …', false);
  return segments;
}

/** Where the stretch with most different terms begins, a few words before the first of them. */
function bestStart(found: readonly number[], length: number): number {
  let best = { start: 0, count: 0 };
  found.forEach((term, at) => {
    if (term < 0) return;
    const stretch = found.slice(at, at + length - LEAD);
    const count = new Set(stretch.filter((other) => other >= 0)).size;
    if (count > best.count) best = { start: at, count };
  });
  return best.count === 0 ? 0 : Math.max(0, best.start - LEAD);
}

/** Words shown before the first that was searched for. */
const LEAD = 4;
