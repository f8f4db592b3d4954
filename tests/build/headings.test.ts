import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { DIST, filesOfSite } from '../support/site-folder.ts';

const pages = filesOfSite().filter((path) => path.endsWith('.html'));

test(`on each of ${pages.length} pages the first heading is the only one of its level, and none skips a level`, () => {
  expect(pages.length).toBeGreaterThan(300);
  const wrong = pages.flatMap((path) => {
    const html = readFileSync(join(DIST, path), 'utf8');
    const levels = [...html.matchAll(/<h([1-6])[\s>]/g)].map(([, level]) => Number(level));
    const [first, ...rest] = levels;
    const isOne = first === 1 && !rest.includes(1);
    const skipped = rest.some((level, i) => level > levels[i]! + 1);
    return isOne && !skipped ? [] : [`${path}: ${levels.join(' ')}`];
  });
  expect(wrong).toEqual([]);
});
