import MiniSearch from 'minisearch';
import { meaningOf, stemOf, wordsByName } from './meaning.ts';
import type { Name } from './names.ts';
import { ELSEWHERE, readNames, type Searched } from './reading.ts';
import { DROPPED } from './trade-words.ts';

/** How much a word counts by where it stands: the more, the fewer words stand there. */
const BOOST = { name: 3, aliases: 2.5, about: 1.5, text: 0.5 };
/** Words that may be left out of a query, but tell one complaint from another. */
const TELLING = new Set(['on', 'no']);
/** Least share of a query’s words that an entry must hold. */
const LEAST_SHARE = 0.5;

type Fields = Readonly<Record<keyof typeof BOOST, string>> & { readonly id: string };

const indexes = new WeakMap<readonly Name[], MiniSearch<Fields>>();

/**
 * How well entries hold the words of a query, whatever these mean: from 0 to 1 by address, the
 * best first. What holds less than half of them is left out.
 */
export function wordsShared(query: string, names: readonly Name[]): ReadonlyMap<string, number> {
  const asked = new Set(wordsByName(query).flatMap((word) => termOf(word) ?? [])).size;
  const hits = indexOf(names).search(query);
  const best = hits[0]?.score ?? 1;
  return new Map(
    hits
      .map(({ id, score, queryTerms }) => ({ id, score, share: queryTerms.length / asked }))
      .filter(({ share }) => share >= LEAST_SHARE)
      .map(({ id, score, share }): [string, number] => [id, (score / best) * share])
      .sort(([, a], [, b]) => b - a),
  );
}

/**
 * Whether a query holds a word that no page does: what is asked for, most likely, so that what
 * holds the words beside it answers nothing. Two letters are a code, not a word.
 */
export function holdsUnknown(query: string, searched: Searched): boolean {
  const index = indexOf(searched.names);
  const { isUnknown } = readNames(searched);
  return [...meaningOf(query).keys()].some((feature) => {
    if (feature.startsWith(ELSEWHERE)) return isUnknown(feature);
    const isWord = /^\p{L}{3,}$/u.test(feature);
    return isWord && isUnknown(feature) && index.search(feature).length === 0;
  });
}

/** The index of a list of names, made once; terminals are found by what they mean alone. */
export function indexOf(names: readonly Name[]): MiniSearch<Fields> {
  const known = indexes.get(names);
  if (known) return known;
  const index = new MiniSearch<Fields>({
    fields: Object.keys(BOOST),
    tokenize: wordsByName,
    processTerm: termOf,
    searchOptions: { boost: BOOST },
  });
  index.addAll(
    names
      .filter(({ kind }) => kind !== 'terminal')
      .map(({ url, name, aliases, about, text = '' }) => ({
        id: url,
        name,
        aliases: aliases.join(' '),
        about,
        text,
      })),
  );
  indexes.set(names, index);
  return index;
}

const termOf = (word: string): string | null =>
  DROPPED.has(word) && !TELLING.has(word) ? null : stemOf(word);
