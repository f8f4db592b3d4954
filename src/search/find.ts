import { type Correction, correct } from './correct.ts';
import { wordsThatMatter } from './meaning.ts';
import type { Facets, Kind, Vocabulary } from './names.ts';
import { namesInFacets, nearestComplaints, rankNames } from './rank.ts';
import { findReference } from './reference.ts';
import type { Result } from './result.ts';
import { excerpt, holds, holdsTogether } from './text.ts';

/** A page the full-text index gives for a query, whether or not it holds the words. */
export interface PageHit {
  /** Address from the site's base. */
  readonly url: string;
  readonly title: string;
  readonly kind: Kind;
  readonly text: string;
  /** Parts of the page that have an address of their own, its beginning among them. */
  readonly sections: readonly { readonly url: string; readonly text: string }[];
}

/** The full-text index. */
export type SearchPages = (query: string, facets: Facets) => Promise<readonly PageHit[]>;

/** What is asked. */
export interface Asked {
  readonly query: string;
  readonly facets: Facets;
  /** Address from the base of the page the reader is on. */
  readonly here: string;
  /** Whether the last word may be unfinished. */
  readonly typing: boolean;
}

/** What was found. */
export interface Found {
  /** The query as it was answered, after correction. */
  readonly query: string;
  readonly correction: Correction | undefined;
  /** Entries and terminals by name, then pages by their text; each page once. */
  readonly results: readonly Result[];
  /** Complaints near to what was asked, when nothing answers it; none when none is near. */
  readonly nearest: readonly Result[];
}

/** Complaints shown when nothing answers a query. */
const MOST_NEAREST = 3;

/** Longest query that is answered, letters: whole sentences are shorter. */
export const MOST_LETTERS = 200;

const NOTHING = { correction: undefined, results: [], nearest: [] };

/** Answers from names alone, at once; {@link find} adds what the pages hold. */
export function findNames(asked: Asked, vocabulary: Vocabulary): Found {
  const { query, facets, here, typing } = asked;
  if (query.trim() === '') {
    const chosen = Object.values(facets).some((values) => values.length > 0);
    const results = chosen ? namesInFacets(vocabulary.names, facets) : [];
    return { ...NOTHING, query, results };
  }
  if (query.length > MOST_LETTERS) return { ...NOTHING, query };
  const search = (words: string) => [
    ...(hasNoFacet(facets) ? findReference(words, vocabulary, here) : []),
    ...rankNames(words, vocabulary, { facets, here }),
  ];
  const correction = correct(query, vocabulary.words, typing);
  const meant = correction?.query ?? query;
  return { ...NOTHING, query: meant, correction, results: search(meant) };
}

/**
 * Answers a query: names first, its words put right, then the pages whose text holds its
 * words, those that hold them side by side first. A page the index gives that does not hold
 * them counts as none.
 * @throws what the index throws when it cannot be loaded
 */
export async function find(
  asked: Asked,
  vocabulary: Vocabulary,
  searchPages: SearchPages,
): Promise<Found> {
  const named = findNames(asked, vocabulary);
  if (asked.query.trim() === '' || asked.query.length > MOST_LETTERS) return named;
  const words = wordsThatMatter(named.query);
  const shown = new Set(named.results.map(({ url }) => pageOf(url)));
  const hits = await searchPages(words, asked.facets);
  const pages = hits.filter(({ url, title, text }) => {
    return !shown.has(pageOf(url)) && holds(`${title} ${text}`, words);
  });
  const together = pages.filter(({ text }) => holdsTogether(text, words));
  const apart = pages.filter((hit) => !together.includes(hit));
  const results = [...named.results, ...[...together, ...apart].map((hit) => resultOf(hit, words))];
  const nearest =
    results.length > 0 ? [] : nearestComplaints(named.query, vocabulary, MOST_NEAREST);
  return { ...named, results, nearest };
}

function resultOf({ url, title, kind, text, sections }: PageHit, query: string): Result {
  const section =
    sections.find((part) => holdsTogether(part.text, query)) ??
    sections.find((part) => holds(part.text, query));
  return { title, kind, url: section?.url ?? url, excerpt: excerpt(section?.text ?? text, query) };
}

const hasNoFacet = (facets: Facets) => Object.values(facets).every((values) => values.length === 0);

const pageOf = (url: string) => url.replace(/#.*$/, '');
