import { NOT_FOUND_PAGE } from './manifest.ts';

/** How the worker answers for a path. */
export type Answer =
  /** A file of the version, found. */
  | { readonly kind: 'file'; readonly path: string }
  /** The page is there under its address with a slash. */
  | { readonly kind: 'redirect'; readonly path: string }
  /** No such page in this version: its not-found page answers. */
  | { readonly kind: 'missing'; readonly path: string }
  /** Not a page, and not saved: the network may have it. */
  | { readonly kind: 'network' };

/**
 * Finds what answers for a path, as a plain file server would: `x/` is `x/index.html`, `x` is
 * sent to `x/` or answered by `x.html`.
 * @param path decoded, from the site's base, without its leading slash; '' is the first page
 * @param has whether the version holds a file
 */
export function answerFor(path: string, has: (file: string) => boolean): Answer {
  if (path === '' || path.endsWith('/')) {
    const index = `${path}index.html`;
    return has(index) ? { kind: 'file', path: index } : missing(has);
  }
  if (has(path)) return { kind: 'file', path };
  if (has(`${path}/index.html`)) return { kind: 'redirect', path: `${path}/` };
  if (has(`${path}.html`)) return { kind: 'file', path: `${path}.html` };
  return looksLikeFile(path) ? { kind: 'network' } : missing(has);
}

/**
 * The path an address has from a site's base, decoded, its search and fragment left out;
 * undefined for addresses outside the base.
 * @param base absolute address of the site's base, ending in a slash
 */
export function pathFrom(base: string, address: string): string | undefined {
  const { origin, pathname } = new URL(address);
  const root = new URL(base);
  if (origin !== root.origin || !pathname.startsWith(root.pathname)) return undefined;
  const path = pathname.slice(root.pathname.length);
  try {
    return decodeURIComponent(path);
  } catch {
    // A stray per cent sign is part of no file's name: it will not be found, and be told so.
    return path;
  }
}

/** The worker's own files are always asked of the network: they say whether there is an update. */
export const isWorkerFile = (path: string): boolean =>
  path === 'sw.js' || path.startsWith('offline/');

const looksLikeFile = (path: string) => /\.(?!html$)[a-z0-9_]+$/i.test(path);

const missing = (has: (file: string) => boolean): Answer =>
  has(NOT_FOUND_PAGE) ? { kind: 'missing', path: NOT_FOUND_PAGE } : { kind: 'network' };
