/** Lower case without accents, so that what is typed and what is written compare. */
export const fold = (text: string): string =>
  // Most labels are plain, and thousands are folded before the first key.
  PLAIN.test(text)
    ? text.toLowerCase()
    : text
        .normalize('NFKD')
        .replaceAll(/\p{M}+/gu, '')
        .replaceAll('’', "'")
        .toLowerCase();

const PLAIN = /^[ -~]*$/;

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

/** Whether a text holds a query's words side by side, the last one perhaps unfinished. */
export const holdsTogether = (text: string, query: string): boolean =>
  ` ${spaced(text)}`.includes(` ${spaced(query)}`);

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
    const term = terms.findIndex((each) => parts.some((part) => matches(part, each)));
    return { term, exact: term >= 0 && parts.includes(terms[term]!) };
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
    const marked = found[i]!.term >= 0;
    add(words[i]!, marked);
    if (i + 1 < end) add(' ', marked && found[i + 1]!.term >= 0);
  }
  if (end < words.length) add(' …', false);
  return segments;
}

/** A word of a text: which term it matches, -1 for none, and whether letter for letter. */
interface FoundWord {
  readonly term: number;
  readonly exact: boolean;
}

/** Where the stretch with most different terms begins, a few words before the first of them. */
function bestStart(found: readonly FoundWord[], length: number): number {
  let best = { start: 0, score: 0 };
  found.forEach(({ term }, at) => {
    if (term < 0) return;
    const stretch = found.slice(at, at + length - LEAD);
    const score = scoreOf(stretch);
    if (score > best.score) best = { start: at, score };
  });
  return best.score === 0 ? 0 : Math.max(0, best.start - LEAD);
}

/** Two for each term that stands there letter for letter, one for its beginning alone. */
function scoreOf(stretch: readonly FoundWord[]): number {
  const scores = new Map<number, number>();
  for (const { term, exact } of stretch)
    if (term >= 0) scores.set(term, Math.max(scores.get(term) ?? 0, exact ? 2 : 1));
  return [...scores.values()].reduce((sum, each) => sum + each, 0);
}

/** Words shown before the first that was searched for. */
const LEAD = 4;
