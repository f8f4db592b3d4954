import { createHash } from 'node:crypto';

/**
 * Content security policy of a page. Scripts and style sheets are files of this site; the
 * search index is WebAssembly, compiled in the page; the one style element a page may hold is
 * let in by its hash.
 * @param rules text of the page's style element, or empty.
 */
export function policy(rules: string): string {
  const own =
    rules === '' ? '' : ` 'sha256-${createHash('sha256').update(rules).digest('base64')}'`;
  return [
    "default-src 'none'",
    "script-src 'self' 'wasm-unsafe-eval'",
    `style-src 'self'${own}`,
    "img-src 'self' data:",
    "font-src 'self'",
    "connect-src 'self'",
    "manifest-src 'self'",
    "worker-src 'self'",
    "base-uri 'none'",
    "form-action 'self'",
  ].join('; ');
}
