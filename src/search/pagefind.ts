import type { PageHit, SearchPages } from './find.ts';
import { FACETS, type Facets, KIND_TITLES, type Kind } from './names.ts';

/** What is used of the index's own script (pagefind.js, written beside the index). */
interface Index {
  readonly options: (options: { readonly baseUrl: string }) => Promise<void>;
  readonly search: (
    query: string,
    options: { readonly filters: Readonly<Record<string, unknown>> },
  ) => Promise<{ readonly results: readonly { readonly data: () => Promise<PageData> }[] }>;
}

/** What the index keeps of a page. */
interface PageData {
  readonly url: string;
  readonly content: string;
  readonly meta: Readonly<Record<string, string | undefined>>;
  readonly sub_results: readonly { readonly url: string; readonly excerpt: string }[];
}

/** Pages looked at: more than are shown, since some will not hold the words. */
const MOST_PAGES = 20;

/**
 * Loads the full-text index.
 * @param base path of the site's base, ending in a slash
 * @throws TypeError when its script cannot be had
 */
export async function openPages(base: string): Promise<SearchPages> {
  const script = `${base}pagefind/pagefind.js`;
  const index: Index = await import(/* @vite-ignore */ script);
  await index.options({ baseUrl: base });
  return async (query, facets) => {
    const { results } = await index.search(query.replaceAll(/[./]+/g, ' '), {
      filters: filtersOf(facets),
    });
    const pages = await Promise.all(results.slice(0, MOST_PAGES).map((result) => result.data()));
    return pages.map((page) => hitOf(page, base));
  };
}

/** Any of the kinds, arrangements, controls chosen; all of the features. */
function filtersOf(facets: Facets): Record<string, unknown> {
  const chosen = FACETS.filter((facet) => (facets[facet]?.length ?? 0) > 0);
  return Object.fromEntries(
    chosen.map((facet) => {
      const values = facets[facet];
      return [facet, facet === 'feature' ? values : { any: values }];
    }),
  );
}

function hitOf({ url, content, meta, sub_results }: PageData, base: string): PageHit {
  const fromBase = (address: string) => address.slice(base.length);
  const kind = meta.kind ?? '';
  return {
    url: fromBase(url),
    title: meta.title ?? url,
    kind: isKind(kind) ? kind : 'page',
    text: content,
    sections: sub_results.map((section) => ({
      url: fromBase(section.url),
      text: textOf(section.excerpt),
    })),
  };
}

const isKind = (kind: string): kind is Kind => kind in KIND_TITLES;

/** The text of an excerpt, which comes as HTML with marks. */
const textOf = (html: string) =>
  new DOMParser().parseFromString(html, 'text/html').body.textContent ?? '';
