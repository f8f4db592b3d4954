import { decodeCbor, encodeCbor, type Value } from './cbor.ts';

/**
 * Pagefind keeps its index by word: a list for each word of the pages it stands on and of its
 * places there, in a few chunks. One word more on one page moves the places of all that follow
 * and so changes every chunk. Kept by page, it changes what belongs to that page and no more.
 * Packs hold the index by page; the worker puts the chunks together when they are asked for.
 *
 * A chunk, as Pagefind 1.6 writes it: `[[word, postings, [[spelling, postings] …]] …]` in one
 * more list, postings being `[page, places, places in metadata] …`; spellings are those with
 * accents; pages are differences, the first from 0, counted as the metadata lists them.
 */

/** Where a site's index lies: the chunks of words, and a fragment for each page. */
export const CHUNKS = 'pagefind/index/';
export const FRAGMENTS = 'pagefind/fragment/';
/** Where packs hold the index by page; no server has these. */
export const WORDS = 'pagefind/words/';

/** One spelling of a word on one page, '' for the word itself; its places as the chunk has them. */
type Posting = readonly [word: string, spelling: string, places: Value, metaPlaces: Value];

/** A list of the pages that a spelling stands on. */
type Pages = readonly (readonly [step: number, places: Value, metaPlaces: Value])[];

type Chunk = readonly [
  readonly (readonly [word: string, Pages, readonly (readonly [string, Pages])[]])[],
];

/** What the metadata says: which page has which number, and which words are in which chunk. */
export interface Meta {
  /** Names of the pages' fragments, in order of the pages' numbers. */
  readonly fragments: readonly string[];
  /** First word of each chunk, or a beginning of it that no earlier word reaches, and its name. */
  readonly chunks: readonly { readonly from: string; readonly name: string }[];
}

/** What marks a file of the index that is not compressed. */
const SIGNATURE = 'pagefind_dcd';

/**
 * Takes the mark off a file of the index.
 * @throws RangeError when it has none
 */
export function unsigned(file: Uint8Array<ArrayBuffer>): Uint8Array<ArrayBuffer> {
  if (new TextDecoder().decode(file.subarray(0, SIGNATURE.length)) !== SIGNATURE)
    throw new RangeError('not a file of a search index');
  return file.subarray(SIGNATURE.length);
}

/** @throws RangeError, TypeError when it is not metadata as Pagefind 1.6 writes it */
export function readMeta(file: Uint8Array<ArrayBuffer>): Meta {
  const [, pages, chunks] = decodeCbor(unsigned(file)) as [
    string,
    readonly (readonly [string])[],
    readonly (readonly [string, string, string])[],
  ];
  return {
    fragments: pages.map(([fragment]) => fragment),
    chunks: chunks.map(([from, , name]) => ({ from, name })),
  };
}

/**
 * The words of each page, as text, by the name of its fragment.
 * @throws RangeError when a chunk is not what this knows
 */
export function wordsByPage(
  chunks: readonly Uint8Array<ArrayBuffer>[],
  { fragments }: Meta,
): Map<string, string> {
  const pages = fragments.map((): Posting[] => []);
  for (const chunk of chunks) {
    const [words] = decodeCbor(unsigned(chunk)) as unknown as Chunk;
    for (const [word, own, spellings] of words)
      for (const [spelling, postings] of [['', own] as const, ...spellings]) {
        let page = 0;
        for (const [step, places, metaPlaces] of postings) {
          page += step;
          pages[page]!.push([word, spelling, places, metaPlaces]);
        }
      }
  }
  return new Map(fragments.map((fragment, page) => [fragment, writeWords(pages[page]!)]));
}

/** Path under which packs hold the words of a fragment's page, and back. */
export const wordsPath = (fragment: string): string => `${WORDS}${fragment}.pf_words`;
export const fragmentOf = (path: string): string => path.slice(WORDS.length, -'.pf_words'.length);

/** Words together, then places together: like beside like compresses best. */
function writeWords(postings: readonly Posting[]): string {
  const sorted = postings.toSorted((a, b) => byName(a[0], b[0]) || byName(a[1], b[1]));
  return JSON.stringify([0, 1, 2, 3].map((column) => sorted.map((posting) => posting[column])));
}

function readWords(text: string): Posting[] {
  const [words, spellings, places, metaPlaces] = JSON.parse(text) as [
    string[],
    string[],
    Value[],
    Value[],
  ];
  return words.map((word, i) => [word, spellings[i]!, places[i]!, metaPlaces[i]!]);
}

/**
 * The chunks of an index, by path, from the words of its pages.
 * @param words the words of a page by the name of its fragment, as {@link wordsByPage} has them
 */
export function chunksOf(
  { fragments, chunks }: Meta,
  words: ReadonlyMap<string, string>,
): Map<string, Uint8Array<ArrayBuffer>> {
  const index = new Map<string, Map<string, Postings>>();
  fragments.forEach((fragment, page) => {
    for (const [word, spelling, places, metaPlaces] of readWords(words.get(fragment) ?? NO_WORDS)) {
      const spellings = index.get(word) ?? new Map([['', new Postings()]]);
      const postings = spellings.get(spelling) ?? new Postings();
      postings.add(page, places, metaPlaces);
      index.set(word, spellings.set(spelling, postings));
    }
  });
  const sorted = [...index].sort(([a], [b]) => byName(a, b));
  return new Map(
    chunks.map(({ from, name }, i) => {
      const next = chunks[i + 1]?.from;
      const within = sorted.filter(
        ([word]) =>
          (i === 0 || byName(word, from) >= 0) && (next === undefined || byName(word, next) < 0),
      );
      const body = encodeCbor([within.map(([word, spellings]) => wordInChunk(word, spellings))]);
      const mark = new TextEncoder().encode(SIGNATURE);
      const chunk = new Uint8Array(mark.length + body.length);
      chunk.set(mark);
      chunk.set(body, mark.length);
      return [`${CHUNKS}${name}.pf_index`, chunk];
    }),
  );
}

const NO_WORDS = '[[],[],[],[]]';

/** The pages of one spelling, added in their order. */
class Postings {
  readonly list: Value[] = [];
  #last = 0;
  add(page: number, places: Value, metaPlaces: Value): void {
    this.list.push([page - this.#last, places, metaPlaces]);
    this.#last = page;
  }
}

function wordInChunk(word: string, spellings: ReadonlyMap<string, Postings>): Value {
  const others = [...spellings].filter(([spelling]) => spelling !== '');
  return [
    word,
    spellings.get('')!.list,
    others.sort(([a], [b]) => byName(a, b)).map(([spelling, { list }]) => [spelling, list]),
  ];
}

const byName = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
