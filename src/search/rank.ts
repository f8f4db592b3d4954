import type { Facets, Kind, Name } from './names.ts';
import type { Result } from './result.ts';
import { excerpt, joined, spaced, wordsOf } from './text.ts';

/** How a name answers a query: the lower, the better. */
const FIT = { exact: 0, alias: 1, begins: 2, aliasBegins: 3, words: 4, aliasWords: 5, parts: 6 };

/** Among equals: a word explains a short form, an entry comes before its parts. */
const KIND_ORDER: readonly Kind[] = [
  'system',
  'symptom',
  'word',
  'device',
  'procedure',
  'standard',
  'terminal',
];

/** A name that answers a query. */
interface Ranked {
  readonly name: Name;
  readonly fit: number;
  /** The alias by which it was found. */
  readonly alias: string | undefined;
}

/**
 * The names that answer a query, best first: the name itself, an alias or abbreviation, what
 * begins so, what holds all the words.
 * @param here address from the base of the page the reader is on: its own terminals come first
 */
export function rankNames(
  query: string,
  names: readonly Name[],
  { facets = {}, here = '' }: { readonly facets?: Facets; readonly here?: string } = {},
): Result[] {
  const asked = { whole: joined(query), phrase: spaced(query), words: wordsOf(query) };
  if (asked.whole === '') return [];
  return names
    .filter((name) => inFacets(name, facets))
    .flatMap((name) => rank(name, asked) ?? [])
    .sort((a, b) => a.fit - b.fit || order(a.name, b.name, here))
    .map((ranked) => resultOf(ranked, query));
}

/** Names within facets alone, in order of kind and name. */
export function namesInFacets(names: readonly Name[], facets: Facets): Result[] {
  return names
    .filter((name) => inFacets(name, facets))
    .sort((a, b) => order(a, b, ''))
    .map((name) => resultOf({ name, fit: FIT.exact, alias: undefined }, ''));
}

/** At most so many results of one title, so that forty terminals called L hide nothing else. */
export function thinned(results: readonly Result[], most: number): Result[] {
  const counts = new Map<string, number>();
  return results.filter(({ kind, title }) => {
    if (kind !== 'terminal') return true;
    const count = (counts.get(title) ?? 0) + 1;
    counts.set(title, count);
    return count <= most;
  });
}

type Asked = { readonly whole: string; readonly phrase: string; readonly words: readonly string[] };

function rank(name: Name, asked: Asked): Ranked | undefined {
  let best: Ranked | undefined;
  const consider = (fit: number | undefined, alias?: string) => {
    if (fit !== undefined && fit < (best?.fit ?? Infinity)) best = { name, fit, alias };
  };
  consider(fitOf(name.name, asked));
  for (const alias of name.aliases) {
    const fit = fitOf(alias, asked);
    consider(fit === undefined ? undefined : fit + 1, alias);
  }
  // Words spread over its names, as in "boiler call feed" for a terminal of a boiler. What an
  // entry says of itself is left to the search of the pages' text.
  if (!best && asked.words.length > 1) {
    const all = [name.name, ...name.aliases, name.of ?? ''].join(' ');
    consider(beginsWords(all, asked.words) ? FIT.parts : undefined);
  }
  return best;
}

function fitOf(label: string, { whole, phrase, words }: Asked): number | undefined {
  if (joined(label) === whole) return FIT.exact;
  if (spaced(label).startsWith(phrase)) return FIT.begins;
  return beginsWords(label, words) ? FIT.words : undefined;
}

const beginsWords = (label: string, terms: readonly string[]) => {
  const words = wordsOf(label);
  return terms.every((term) => words.some((word) => word.startsWith(term)));
};

function inFacets(name: Name, facets: Facets): boolean {
  const { kind = [], feature = [], arrangement = [], control = [] } = facets;
  const has = (facet: 'arrangement' | 'control' | 'feature', value: string) =>
    name.facets?.[facet]?.includes(value) ?? false;
  return (
    (kind.length === 0 || kind.includes(name.kind)) &&
    (arrangement.length === 0 || arrangement.some((value) => has('arrangement', value))) &&
    (control.length === 0 || control.some((value) => has('control', value))) &&
    feature.every((value) => has('feature', value))
  );
}

function order(a: Name, b: Name, here: string): number {
  const isHere = (name: Name) => (here !== '' && name.url.startsWith(here) ? 0 : 1);
  return (
    isHere(a) - isHere(b) ||
    KIND_ORDER.indexOf(a.kind) - KIND_ORDER.indexOf(b.kind) ||
    a.name.length - b.name.length ||
    (a.url < b.url ? -1 : 1)
  );
}

function resultOf({ name, alias }: Ranked, query: string): Result {
  const also = alias ? `Also called ${alias}. ` : '';
  return {
    title: name.name,
    kind: name.kind,
    url: name.url,
    ...(name.of === undefined ? {} : { of: name.of }),
    excerpt: excerpt(also + name.about, query),
  };
}
