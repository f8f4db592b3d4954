import { createHash } from 'node:crypto';

/**
 * Content security policy of a page. Scripts and style sheets are files of this site; the
 * search index is WebAssembly, compiled in the page; the one style element and the one early
 * script a page may hold are let in by their hashes.
 * @param rules text of the page's style element, or empty.
 * @param early text of the script that runs before anything is drawn, or empty.
 */
export function policy(rules: string, early = ''): string {
  const own = (text: string) =>
    text === '' ? '' : ` 'sha256-${createHash('sha256').update(text).digest('base64')}'`;
  return [
    "default-src 'none'",
    `script-src 'self' 'wasm-unsafe-eval'${own(early)}`,
    `style-src 'self'${own(rules)}`,
    "img-src 'self' data:",
    "font-src 'self'",
    "connect-src 'self'",
    "manifest-src 'self'",
    "worker-src 'self'",
    "base-uri 'none'",
    "form-action 'self'",
  ].join('; ');
}
