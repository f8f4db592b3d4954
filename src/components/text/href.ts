const base = import.meta.env.BASE_URL.replace(/\/$/, '');

/**
 * Address of a page or file of this site from its root-relative path, under the base path
 * the site is served from. Anything else (another host, a fragment) is left as it is.
 */
export function href(path: string): string {
  return path.startsWith('/') && !path.startsWith('//') ? `${base}${path}` : path;
}
