import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { LETTERS, SIGNS } from '../../src/fonts/characters.ts';
import { DIST, filesOfSite } from '../support/site-folder.ts';

const SERVED = new Set([...LETTERS, ...SIGNS, '\n', '\r', '\t', '\u00ad']);
const files = filesOfSite();

/** Characters of a text that the served face has not. */
const unserved = (text: string): string[] => [...new Set(text)].filter((one) => !SERVED.has(one));

/** Characters that an HTML file writes by their number. */
const decoded = (html: string): string =>
  html.replace(/&#(x?)([0-9a-f]+);/gi, (_, hex: string, code: string) =>
    String.fromCodePoint(Number.parseInt(code, hex ? 16 : 10)),
  );

/** Text that a style sheet puts on a page. */
const put = (css: string): string =>
  [...css.matchAll(/content:\s*(["'])(.*?)\1/g)]
    .map(([, , text]) =>
      text!.replace(/\\([0-9a-f]{1,6}) ?/gi, (_, code: string) =>
        String.fromCodePoint(Number.parseInt(code, 16)),
      ),
    )
    .join('');

test.each([
  ['pages', /\.html$/, (html: string) => decoded(html.replace(/<script[\s\S]*?<\/script>/g, ''))],
  ['drawings and what a job is told', /^job\/.*\.(?:svg|json)$/, (text: string) => text],
  ['style sheets', /\.css$/, put],
])('every character of the %s is in the served face', (_, kind, textOf) => {
  const found = files.filter((path) => kind.test(path));
  expect(found.length).toBeGreaterThan(0);
  const wrong = found
    .map((path) => [path, unserved(textOf(readFileSync(join(DIST, path), 'utf8')))] as const)
    .filter(([, characters]) => characters.length > 0);
  expect(wrong).toEqual([]);
});

test('a character that is in no file of the face is found', () => {
  expect(unserved('3\u00a0Ω ≤ 5 \u4e00')).toEqual(['\u4e00']);
  expect(put('a::before{content:"\\4e00 1"}')).toBe('\u4e001');
});
