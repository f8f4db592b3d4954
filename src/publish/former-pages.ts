import { type FormerNames, formerPaths } from '../former/index.ts';

/** A file that answers at an address of old: a page that leads on, or what stands there now. */
export type FormerFile =
  | { readonly path: string; readonly page: string }
  | { readonly path: string; readonly copyOf: string };

/** The script of a page that leads on: it takes the rest of the address along. */
const LEADER = 'moved.js';

/**
 * What answers at every former address of a site: hosts of plain files know no other way of
 * leading on. A page leads to the page of now, with a script whatever stands behind `?` and `#`
 * too, which may be all that a reader marked; a file of data stands there twice.
 * @param paths all files of the built site
 * @param base path that the site is served under, ending in a slash
 */
export const formerFiles = (
  paths: readonly string[],
  former: FormerNames,
  base: string,
): FormerFile[] =>
  paths.flatMap((path) =>
    formerPaths(former, path).map((old) =>
      path.endsWith('.html')
        ? { path: old, page: leadingPage(`${base}${path.replace(/index\.html$/, '')}`, base) }
        : { path: old, copyOf: path },
    ),
  );

/** Names are lower-case words joined by hyphens, so an address needs nothing escaped but the base. */
function leadingPage(address: string, base: string): string {
  const to = escaped(address);
  const policy = "default-src 'none'; script-src 'self'; base-uri 'none'";
  return `<!doctype html>
<html lang="en-GB">
<meta charset="utf-8">
<meta http-equiv="content-security-policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<title>Moved</title>
<noscript><meta http-equiv="refresh" content="0; url=${to}"></noscript>
<script src="${escaped(base)}${LEADER}" defer></script>
<h1>This page has another name now</h1>
<p><a id="now" href="${to}">Go to the page</a></p>
</html>
`;
}

const escaped = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');
