import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { cacheControl, headersFile, isText, SECURITY_HEADERS } from '../../src/publish/headers.ts';

/**
 * README's recipe for a plain web server, read as that server reads it: statements end in `;`, blocks
 * stand in braces (https://nginx.org/en/docs/beginners_guide.html#conf_structure).
 */
const [, RECIPE = ''] = /```nginx\n([\s\S]*?)```/.exec(readFileSync('README.md', 'utf8')) ?? [];

interface Statement {
  readonly words: readonly string[];
  readonly within?: readonly Statement[];
}

/** Words in quotation marks or without; `{`, `}` and `;` by themselves. A pattern may hold a brace. */
function statementsOf(text: string): Statement[] {
  const signs = text.match(/"[^"]*"|[{};]|[^\s;{}"]+/g) ?? [];
  const read = (): Statement[] => {
    const found: Statement[] = [];
    let words: string[] = [];
    for (;;) {
      const sign = signs.shift();
      if (sign === undefined || sign === '}') {
        expect(words, 'a statement is ended').toEqual([]);
        return found;
      }
      if (sign === ';') {
        found.push({ words });
        words = [];
      } else if (sign === '{') {
        found.push({ words, within: read() });
        words = [];
      } else words.push(sign.replaceAll('"', ''));
    }
  };
  return read();
}
const ALL = statementsOf(RECIPE);
const server = ALL.find(({ words }) => words[0] === 'server')!.within!;
const said = (name: string, of = server) =>
  of.filter(({ words }) => words[0] === name).map(({ words }) => words.slice(1));

/** What the recipe's map answers for a path. */
function kept(path: string): string {
  const map = ALL.find(({ words }) => words[0] === 'map')!;
  expect(map.words).toEqual(['map', '$uri', '$kept']);
  for (const { words } of map.within!) {
    const [pattern = '', answer = ''] = words;
    if (pattern.startsWith('~') && new RegExp(pattern.slice(1)).test(`/${path}`)) return answer;
  }
  return map.within!.find(({ words }) => words[0] === 'default')!.words[1]!;
}

test('the recipe sends every header that the site needs, with every answer', () => {
  const headers = said('add_header');
  for (const [name, value, always] of headers)
    expect([name, value, always]).toEqual([name, value, 'always']);
  const sent = Object.fromEntries(headers.map(([name, value]) => [name!, value!]));
  expect(sent).toEqual({ 'Cache-Control': '$kept', ...SECURITY_HEADERS });
  // A block inside that added a header of its own would lose all of these.
  const inner = server.flatMap(({ within = [] }) => within);
  expect(said('add_header', inner)).toEqual([]);
  expect(said('error_page')).toEqual([['404', '/404.html']]);
});

test('it keeps what browsers may keep, and asks for the rest, as _headers says', () => {
  const paths = [
    ...['', 'index.html', 'systems/combi-two-wire/index.html', 'sw.js', 'version.json'],
    ...['offline/manifest.json', 'manifest.webmanifest', 'data/index.json', 'pagefind/pagefind.js'],
    ...['_astro/every-page.AbC12.js', '_astro/page.css', 'offline/packs/0a1b2c.pack'],
  ];
  for (const path of paths) expect([path, kept(path)]).toEqual([path, cacheControl(path)]);
  // Under a folder of the host too.
  expect(kept('reference/_astro/page.css')).toBe(cacheControl('_astro/page.css'));
  expect(kept('reference/sw.js')).toBe(cacheControl('sw.js'));
  const blocks = headersFile().split('\n\n');
  for (const block of blocks) {
    const [pattern = '', ...lines] = block.trim().split('\n');
    const [, control] =
      lines.map((one) => /^ {2}Cache-Control: (.*)$/.exec(one)).find(Boolean) ?? [];
    // Icons may be kept for a week; to ask for them is as right.
    if (control === undefined || pattern === '/icons/*') continue;
    const path = pattern.slice(1).replace('*', 'file.js');
    expect([path, kept(path)]).toEqual([path, control]);
  }
});

/** Types by ending of nginx's own mime.types, 1.22; what it does not know the recipe adds. */
const MIME_TYPES: Readonly<Record<string, string>> = {
  css: 'text/css',
  html: 'text/html',
  js: 'application/javascript',
  json: 'application/json',
  svg: 'image/svg+xml',
  txt: 'text/plain',
  xml: 'text/xml',
};

test('it compresses all that is text, and knows the types that the server does not', () => {
  const types = server.find(({ words }) => words[0] === 'types')!.within!;
  const added = Object.fromEntries(
    types.flatMap(({ words: [type, ...endings] }) => endings.map((ending) => [ending, type!])),
  );
  expect(said('include')).toEqual([['mime.types']]);
  expect(said('gzip')).toEqual([['on']]);
  expect(said('gzip_vary')).toEqual([['on']]);
  // Pages are compressed by that server whatever is said.
  const compressed = new Set(['text/html', ...said('gzip_types')[0]!]);
  const known = { ...MIME_TYPES, ...added };
  for (const ending of 'css html js json mjs svg txt webmanifest xml'.split(' ')) {
    expect(isText(`a.${ending}`)).toBe(true);
    expect([ending, compressed.has(known[ending] ?? 'none')]).toEqual([ending, true]);
  }
  expect(known.webmanifest).toBe('application/manifest+json');
  // What comes compressed has none of these types.
  expect(compressed.has(said('default_type')[0]![0]!)).toBe(false);
});
