import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { DIST, filesOfSite } from '../support/site-folder.ts';

/**
 * Words that the trade does not use for the thing, and what it says. Common practice, no source:
 * the words are those heard on calls. Other names stand under “Also called”, where search finds
 * them, and the glossary says what they mean.
 */
const SAY: readonly (readonly [not: RegExp, say: string])[] = [
  [/\bsenders?\b/i, 'wireless room stat'],
  [/\bmend(?:s|ed|ing)?\b/i, 'repair'],
  [/\bconnection unit\b/i, 'fused spur'],
  [/\b(?<!living )room controls?\b/i, 'room stat'],
  [/\bburner lit\b/i, 'boiler firing'],
  [/\bshows a lockout\b/i, 'in lockout'],
  [/\bboiler dark\b|\bdisplay dark\b/i, 'no display'],
  [/\bcirculating pump\b/i, 'pump'],
  [/\bstandby\b/i, 'nothing calling'],
  [/\bparted\b|\bparting\b/i, 'disconnected'],
  [/\bexchanged\b/i, 'crossed, swapped over'],
  [/\bbypassed\b/i, 'linked out; a bypass is pipework'],
  [/\bmade safe\b/i, 'isolated, insulated; made safe is gas'],
  [/\bterminal strip\b/i, 'wiring centre'],
  [/\bprotective device\b/i, 'MCB, RCD, RCBO, fuse'],
  [/\bthe mechanism\b/i, 'valve head, actuator'],
  [/\bfaults’ weights\b|\bweights of the faults\b/i, 'how likely'],
  [/\bwhole tree\b/i, 'test sequence, all steps'],
  [/\bhousehold\b/i, 'customer'],
  [/\bout of its point\b/i, 'loose, pulled out'],
  [/\bstuck pin\b/i, 'seized, sticking'],
  [/\bmoulded lead\b/i, 'flying lead, flex'],
  [/\bheld position\b/i, 'lever on manual'],
  [/\b(?:its|the|off the|bare) plates?\b(?! of| and spring| says| is fixed)/i, 'backplate'],
];

/** Where the trade itself uses the word, or the page is about the word. */
const ALLOWED: readonly RegExp[] = [
  // A valve’s rating plate.
  /read its plate before wiring/i,
];

const pages = filesOfSite().filter(
  (path) => path.endsWith('.html') && !/^(?:glossary|changes)\//.test(path),
);

/** What a reader sees of a page, without the other names a thing has. */
const visible = (html: string): string =>
  html
    .slice(html.indexOf('<body'))
    .replace(/<p class="also-called"[\s\S]*?<\/p>/g, ' ')
    .replace(/<(style|script|template)[\s\S]*?<\/\1>/g, ' ')
    .replace(/<[^>]+>/g, ' ')
    .replace(/&#39;|&rsquo;/g, '’')
    .replace(/\s+/g, ' ');

describe('on no page', () => {
  const texts = pages.map((path) => ({
    path,
    text: visible(readFileSync(join(DIST, path), 'utf8')),
  }));

  test.each(SAY)('stands %s for: %s', (not) => {
    expect(texts.length).toBeGreaterThan(300);
    const found = texts.flatMap(({ path, text }) =>
      [...text.matchAll(new RegExp(not, 'gi'))]
        .map(({ index }) => text.slice(Math.max(index - 40, 0), index + 50))
        .filter((words) => !ALLOWED.some((allowed) => allowed.test(words)))
        .map((words) => `${path}: …${words}…`),
    );
    expect([...new Set(found.map((line) => line.replace(/^[^:]+/, '')))].slice(0, 20)).toEqual([]);
  });
});
