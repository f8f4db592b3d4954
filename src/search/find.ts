import { editDistance } from '../entries/nearest.ts';
import { type Correction, correct } from './correct.ts';
import type { Facets, Kind, Vocabulary } from './names.ts';
import { namesInFacets, rankNames } from './rank.ts';
import { findReference } from './reference.ts';
import type { Result } from './result.ts';
import { excerpt, holds, holdsTogether, joined } from './text.ts';

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
  /** Names near to what was asked, when nothing holds it. */
  readonly nearest: readonly Result[];
}

/** Names nearest to a query, shown when nothing holds it. */
const MOST_NEAREST = 4;

/** Answers from names alone, at once; {@link find} adds what the pages hold. */
export function findNames(asked: Asked, vocabulary: Vocabulary): Found {
  const { query, facets, here, typing } = asked;
  if (query.trim() === '') {
    const chosen = Object.values(facets).some((values) => values.length > 0);
    const results = chosen ? namesInFacets(vocabulary.names, facets) : [];
    return { query, correction: undefined, results, nearest: [] };
  }
  const search = (words: string) => [
    ...(hasNoFacet(facets) ? findReference(words, vocabulary, here) : []),
    ...rankNames(words, vocabulary.names, { facets, here }),
  ];
  const asTyped = search(query);
  if (asTyped.length > 0) return { query, correction: undefined, results: asTyped, nearest: [] };
  const correction = correct(query, vocabulary.words, typing);
  const results = correction ? search(correction.query) : [];
  return { query: correction?.query ?? query, correction, results, nearest: [] };
}

/**
 * Answers a query: exact names first, then words put right, then the pages whose text holds
 * the words, those that hold them side by side first. A page the index gives that does not hold them counts as none.
 * @throws what the index throws when it cannot be loaded
 */
export async function find(
  asked: Asked,
  vocabulary: Vocabulary,
  searchPages: SearchPages,
): Promise<Found> {
  const named = findNames(asked, vocabulary);
  if (asked.query.trim() === '') return named;
  const shown = new Set(named.results.map(({ url }) => pageOf(url)));
  const hits = await searchPages(named.query, asked.facets);
  const pages = hits.filter(({ url, title, text }) => {
    return !shown.has(pageOf(url)) && holds(`${title} ${text}`, named.query);
  });
  const together = pages.filter(({ text }) => holdsTogether(text, named.query));
  const apart = pages.filter((hit) => !together.includes(hit));
  const results = [
    ...named.results,
    ...[...together, ...apart].map((hit) => resultOf(hit, named.query)),
  ];
  const nearest = results.length > 0 ? [] : nearestNames(asked.query, vocabulary);
  return { ...named, results, nearest };
}

function resultOf({ url, title, kind, text, sections }: PageHit, query: string): Result {
  const section =
    sections.find((part) => holdsTogether(part.text, query)) ??
    sections.find((part) => holds(part.text, query));
  return { title, kind, url: section?.url ?? url, excerpt: excerpt(section?.text ?? text, query) };
}

/** Entries whose name or alias is the fewest edits away, as a share of its length. */
function nearestNames(query: string, { names }: Vocabulary): Result[] {
  const asked = joined(query);
  return names
    .filter(({ kind }) => kind !== 'terminal')
    .map((name) => {
      const shares = [name.name, ...name.aliases].map((label) => {
        const other = joined(label);
        return editDistance(asked, other) / Math.max(asked.length, other.length, 1);
      });
      return { name, share: Math.min(...shares) };
    })
    .sort((a, b) => a.share - b.share || (a.name.url < b.name.url ? -1 : 1))
    .slice(0, MOST_NEAREST)
    .map(({ name }) => ({
      title: name.name,
      kind: name.kind,
      url: name.url,
      excerpt: [{ text: name.about, marked: false }],
    }));
}

const hasNoFacet = (facets: Facets) => Object.values(facets).every((values) => values.length === 0);

const pageOf = (url: string) => url.replace(/#.*$/, '');
