import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { pageTexts, sentencesOf } from '../words/page-text.ts';
import { ownWords, patternsIn } from '../words/patterns.ts';

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));
const FILE = fileURLToPath(new URL('../words/sentences.md', import.meta.url));

const HEAD = `# What the pages say

Every pattern of a sentence that the site puts together or holds of its own, once, with one
example from the shipped systems, under the kind of page where it is met first. Names, colours,
codes and numbers are put aside to find the patterns; what entries say in their own words is not
here. Read it through as somebody who does the work: what would a colleague not say? Made by
\`tests/build/sentences.test.ts\`; after \`npm run build\`, this writes it anew:

    UPDATE_TABLES=1 SITE_FOLDER=dist npx vitest run --project site tests/build/sentences.test.ts
`;

/** Kinds of page, in the order in which they are read, by the beginning of their paths. */
const KINDS: readonly (readonly [title: string, path: RegExp])[] = [
  ['Home', /^index\.html/],
  ['A system', /^systems\/[^/]+\/index\.html/],
  ['A test sequence', /^systems\/[^/]+\/sequences\//],
  ['It comes and goes', /^systems\/[^/]+\/comes-and-goes\//],
  ['A complaint', /^symptoms\//],
  ['Live path', /^systems\/[^/]+\/live-path\//],
  ['Readings', /^systems\/[^/]+\/readings\//],
  ['Diagram', /^systems\/[^/]+\/diagram\//],
  ['Wiring', /^systems\/[^/]+\/wiring\//],
  ['A system on paper', /^systems\/[^/]+\/sheet\//],
  ['A replacement', /^systems\/[^/]+\/replace\//],
  ['As found', /^systems\/[^/]+\/as-found\//],
  ['A device', /^devices\//],
  ['A house standard', /^standards\//],
  ['A procedure', /^procedures\//],
  ['Cores between two places', /^planner\//],
  ['All other pages', /^(?!changes\/)/],
];

/** The file as the built site makes it. */
function sentencesFile(): string {
  const patternOf = patternsIn(CONTENT);
  const isOwn = ownWords(CONTENT);
  const pages = pageTexts();
  const done = new Set<string>();
  const patterns = new Set<string>();
  const parts = KINDS.map(([title, path]) => {
    const lines: string[] = [];
    for (const { blocks } of pages.filter((page) => path.test(page.path))) {
      for (const sentence of blocks.flatMap(sentencesOf)) {
        if (done.has(sentence)) continue;
        done.add(sentence);
        // A printed sequence's lines hold what its steps say.
        if (sentence.includes(' · ') || isOwn(sentence)) continue;
        const pattern = patternOf(sentence);
        if (patterns.has(pattern) || !/[a-z]{2}/.test(pattern.replace(/\{[a-z]+\}/g, ''))) continue;
        patterns.add(pattern);
        lines.push(`- ${sentence}`);
      }
    }
    return lines.length === 0 ? '' : `\n## ${title}\n\n${lines.join('\n')}\n`;
  });
  return HEAD + parts.join('');
}

test('every pattern of a sentence stands in tests/words/sentences.md, to be read through', () => {
  const now = sentencesFile();
  if (process.env.UPDATE_TABLES) writeFileSync(FILE, now);
  expect(now.split('\n- ').length).toBeGreaterThan(500);
  // A difference: read what is new as a colleague would, then write the file anew, see its head.
  expect(readFileSync(FILE, 'utf8')).toBe(now);
});
