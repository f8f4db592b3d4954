import { describe, expect, test } from 'vitest';
import { answerFor, isWorkerFile, pathFrom } from '../../src/offline/paths.ts';

const files = new Set([
  'index.html',
  'systems/combi/index.html',
  'a.css',
  'plain.html',
  '404.html',
]);
const has = (file: string) => files.has(file);

describe('the answer for a path', () => {
  test.each([
    ['', 'file', 'index.html'],
    ['systems/combi/', 'file', 'systems/combi/index.html'],
    ['systems/combi/index.html', 'file', 'systems/combi/index.html'],
    ['systems/combi', 'redirect', 'systems/combi/'],
    ['plain', 'file', 'plain.html'],
    ['a.css', 'file', 'a.css'],
    ['nothing', 'missing', '404.html'],
    ['nothing/', 'missing', '404.html'],
    ['nothing.html', 'missing', '404.html'],
  ])('%j is a %s: %s', (path, kind, file) => {
    expect(answerFor(path, has)).toEqual({ kind, path: file });
  });

  test('a file that is no page is asked of the network', () => {
    expect(answerFor('data/x.json', has)).toEqual({ kind: 'network' });
  });

  test('so is a page where there is no not-found page', () => {
    expect(answerFor('nothing/', () => false)).toEqual({ kind: 'network' });
  });
});

describe('the path of an address', () => {
  const base = 'https://reference.example/base/';
  test.each([
    ['https://reference.example/base/', ''],
    ['https://reference.example/base/a/?q=SL#b', 'a/'],
    [
      'https://reference.example/base/pagefind/pagefind-entry.json?ts=17',
      'pagefind/pagefind-entry.json',
    ],
    ['https://reference.example/base/a%20b/', 'a b/'],
    ['https://reference.example/base/100%/', '100%/'],
    ['https://reference.example/other/', undefined],
    ['https://elsewhere.example/base/', undefined],
  ])('%s', (address, path) => {
    expect(pathFrom(base, address)).toBe(path);
  });
});

test('the worker and its packs are never answered from a saved version', () => {
  expect(isWorkerFile('sw.js')).toBe(true);
  expect(isWorkerFile('offline/manifest.json')).toBe(true);
  expect(isWorkerFile('systems/sw.js/')).toBe(false);
});
