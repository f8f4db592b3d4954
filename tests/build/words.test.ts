import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { wrongTerms } from '../../src/words/index.ts';
import { DIST, filesOfSite } from '../support/site-folder.ts';
import { faultsOfGrammar } from '../words/grammar.ts';
import { pageTexts, sentencesOf } from '../words/page-text.ts';

/** Pages about words: the glossary explains any, and what changed once said it otherwise. */
const ABOUT_WORDS = /^(?:glossary|changes)\//;

/** Titles of a publication and what it says, as sources quote it. */
const PUBLISHED = /\b(?:BS|IEC|EN|HD|IET) (?:EN )?\d|\b(?:BS 7671|On-Site Guide|Linsley)\b/;

/** Fields of the open data that people read. */
const READ = new Set([
  'title',
  'otherwise',
  'place',
  'hazard',
  'repair',
  'proving',
  'how',
  'caution',
  'care',
  'why',
  'because',
  'message',
  'text',
  'fix',
  'mend',
]);

/** Every text of the open data that people read, with the field it stands in. */
function dataTexts(value: unknown, at: string, found: [string, string][]): [string, string][] {
  if (typeof value === 'string') {
    const field = at.split('.').findLast((key) => !/^\d+$/.test(key))!;
    if (READ.has(field)) found.push([at, value]);
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, inner] of Object.entries(value)) dataTexts(inner, `${at}.${key}`, found);
  }
  return found;
}

const pages = pageTexts();
const data = filesOfSite()
  .filter((path) => /^data\/.*\.json$/.test(path) && !path.startsWith('data/schemas/'))
  .flatMap((path) => dataTexts(JSON.parse(readFileSync(join(DIST, path), 'utf8')), path, []));

/** Every text of the built site, each once, with where it stands first. */
const texts = new Map<string, string>();
for (const { path, blocks } of pages)
  if (!ABOUT_WORDS.test(path))
    for (const text of blocks) if (!texts.has(text)) texts.set(text, path);
for (const [at, text] of data) if (!texts.has(text)) texts.set(text, at);

describe('in what the build generates', () => {
  test('there are pages and open data to look at', () => {
    expect(pages.length).toBeGreaterThan(300);
    expect(data.length).toBeGreaterThan(5000);
  });

  test('no word stands that the trade does not use', () => {
    const found = [...texts].flatMap(([text, at]) =>
      PUBLISHED.test(text)
        ? []
        : wrongTerms(text).map(({ found, say, at: place }) => {
            const around = text.slice(Math.max(place - 40, 0), place + 50);
            return `${at}: “${found}”, say ${say}: …${around}…`;
          }),
    );
    expect(found.slice(0, 20)).toEqual([]);
  });

  test('an abbreviation keeps its capitals inside a sentence', () => {
    const found = [...texts].flatMap(([text, at]) => {
      const said = /\b[a-z][A-Z]{2,}\b/.exec(text);
      return said ? [`${at}: ${said[0]}`] : [];
    });
    expect(found.slice(0, 20)).toEqual([]);
  });

  test('a link is apart from the word after it', () => {
    const found = pages.flatMap(({ path }) => {
      const html = readFileSync(join(DIST, path), 'utf8');
      return [...html.matchAll(/<\/a>[a-z]{2}/g)].map(
        ({ index }) => `${path}: ${html.slice(index - 20, index + 16)}`,
      );
    });
    expect(found.slice(0, 20)).toEqual([]);
  });

  test('every sentence is whole: its articles, numbers, stops and repeated words', () => {
    const sentences = [...texts].flatMap(([text, at]) => sentencesOf(text).map((one) => [one, at]));
    const found = sentences.flatMap(([sentence, at]) =>
      faultsOfGrammar(sentence!).map((what) => `${at}: ${what}: ${sentence}`),
    );
    expect(found.slice(0, 20)).toEqual([]);
  });
});
