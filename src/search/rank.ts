import { meaningOf } from './meaning.ts';
import type { Facets, Kind, Name } from './names.ts';
import { readNames, type Searched, thingsIn, weightShared } from './reading.ts';
import type { Result } from './result.ts';
import { EXACT, type Ranked, scored } from './score.ts';
import { excerpt } from './text.ts';

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

/** Answers worse than this share of the best are left out, but for the first few entries. */
const LEAST_OF_BEST = 0.55;
const A_FEW = 3;

/**
 * The names that answer a query, best first: the name itself, an alias or abbreviation, then
 * what says the same: part, state, colour, terminal, number, each as the trade has it.
 * @param here address from the base of the page the reader is on: its own terminals come first
 */
export function rankNames(
  query: string,
  searched: Searched,
  { facets = {}, here = '' }: { readonly facets?: Facets; readonly here?: string } = {},
): Result[] {
  const ranked = scored(query, searched).filter(({ name }) => inFacets(name, facets));
  const best = Math.max(0, ...ranked.map(({ score }) => (score < EXACT ? score : 1)));
  return ranked
    .sort((a, b) => b.score - a.score || order(a.name, b.name, here))
    .filter(({ name, score, askedAbout }, at) => {
      const isAmongFew = at < A_FEW && best < EXACT && name.kind !== 'terminal';
      return score >= best * LEAST_OF_BEST || askedAbout || isAmongFew;
    })
    .map((each) => resultOf(each, query));
}

/**
 * Complaints about a thing that a query names and nothing answers, the nearest first: that
 * both are out of order makes nothing near.
 */
export function nearestComplaints(query: string, searched: Searched, most: number): Result[] {
  const { weightOf, names: read } = readNames(searched);
  const meaning = meaningOf(query);
  const things = thingsIn(meaning);
  return read
    .filter(
      ({ name, whole }) => name.kind === 'symptom' && weightShared(things, whole, weightOf) > 0,
    )
    .map(({ name, whole }) => ({ name, near: weightShared(meaning, whole, weightOf) }))
    .sort((a, b) => b.near - a.near || order(a.name, b.name, ''))
    .slice(0, most)
    .map(({ name }) => resultOf({ name, alias: undefined }, query));
}

/** Names within facets alone, in order of kind and name. */
export function namesInFacets(names: readonly Name[], facets: Facets): Result[] {
  return names
    .filter((name) => inFacets(name, facets))
    .sort((a, b) => order(a, b, ''))
    .map((name) => resultOf({ name, alias: undefined }, ''));
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

function resultOf({ name, alias }: Pick<Ranked, 'name' | 'alias'>, query: string): Result {
  const also = alias ? `Also called ${alias.replace(/[.!?]$/, '')}. ` : '';
  return {
    title: name.name,
    kind: name.kind,
    url: name.url,
    ...(name.of === undefined ? {} : { of: name.of }),
    excerpt: excerpt(also + name.about, query),
  };
}
