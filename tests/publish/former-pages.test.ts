import { expect, test } from 'vitest';
import { formerFiles } from '../../src/publish/index.ts';

const FORMER = { systems: { old: 'now' } };

test('a page of old leads to the page of now, under the base path, with a script or without', () => {
  const [file, ...others] = formerFiles(
    ['index.html', 'systems/now/as-found/index.html', 'systems/other/index.html'],
    FORMER,
    '/a & b/',
  );
  expect(others).toEqual([]);
  expect(file).toMatchObject({ path: 'systems/old/as-found/index.html' });
  const page = file && 'page' in file ? file.page : '';
  const to = '/a &amp; b/systems/now/as-found/';
  expect(page).toContain(`<noscript><meta http-equiv="refresh" content="0; url=${to}"></noscript>`);
  expect(page).toContain(`<a id="now" href="${to}">`);
  expect(page).toContain('<script src="/a &amp; b/moved.js" defer></script>');
});

test('a file of data stands at the address of old too', () => {
  expect(
    formerFiles(['data/systems/now.json', 'job/now.svg', 'data/index.json'], FORMER, '/'),
  ).toEqual([
    { path: 'data/systems/old.json', copyOf: 'data/systems/now.json' },
    { path: 'job/old.svg', copyOf: 'job/now.svg' },
  ]);
});
