import { describe, expect, test } from 'vitest';
import {
  currentName,
  currentPath,
  type FormerNames,
  formerNamesOf,
  formerPaths,
} from '../../src/former/index.ts';
import { property } from '../support/property.ts';

const FORMER: FormerNames = {
  systems: { 'old-one': 'new-one', 'older-one': 'new-one', 'old-two': 'new-two' },
  devices: { 'old-part': 'new-part' },
  symptoms: { 'was-cold': 'is-cold' },
  glossary: { word: 'other-word' },
};

describe('a former name', () => {
  test('leads to the name of now, in its own folder alone', () => {
    expect(currentName(FORMER, 'systems', 'older-one')).toBe('new-one');
    expect(currentName(FORMER, 'devices', 'old-one')).toBe('old-one');
    expect(currentName(FORMER, 'standards', 'old-one')).toBe('old-one');
    expect(formerNamesOf(FORMER, 'systems', 'new-one')).toEqual(['old-one', 'older-one']);
    expect(formerNamesOf(FORMER, 'procedures', 'new-one')).toEqual([]);
  });

  test('is no name that every object has', () => {
    expect(currentName(FORMER, 'systems', 'constructor')).toBe('constructor');
    expect(currentName(FORMER, 'constructor', 'name')).toBe('name');
    expect(currentPath(FORMER, 'systems/constructor/')).toBe('systems/constructor/');
  });
});

describe('a path with a former name', () => {
  test.each([
    ['systems/old-one/', 'systems/new-one/'],
    ['systems/old-one', 'systems/new-one'],
    ['systems/old-one/index.html', 'systems/new-one/index.html'],
    ['systems/old-one/as-found/', 'systems/new-one/as-found/'],
    ['systems/old-one/replace/e1-old-part/', 'systems/new-one/replace/e1-new-part/'],
    ['systems/other/replace/e1-old-part/', 'systems/other/replace/e1-new-part/'],
    ['systems/old-one/sequences/was-cold/', 'systems/new-one/sequences/is-cold/'],
    ['data/systems/old-two.json', 'data/systems/new-two.json'],
    ['job/old-two.json', 'job/new-two.json'],
    ['job/old-two.svg', 'job/new-two.svg'],
    ['glossary/word/', 'glossary/other-word/'],
  ])('leads on: %s', (old, now) => {
    expect(currentPath(FORMER, old)).toBe(now);
    expect(formerPaths(FORMER, now)).toContain(old);
  });

  test.each([
    '',
    'systems/',
    'systems/old-one-and-more/',
    'systems/not-old-one/',
    'systems/other/replace/old-part/',
    'systems/other/replace/e1-old-part-2/',
    'devices/old-one/',
    'about/old-one/',
    'job/old-two.txt',
    'standards/word/',
  ])('any other stays: %s', (path) => {
    expect(currentPath(FORMER, path)).toBe(path);
    expect(formerPaths(FORMER, path)).toEqual([]);
  });

  test('has every mixture of old and new', () => {
    expect(formerPaths(FORMER, 'systems/new-one/replace/e1-new-part/').toSorted()).toEqual([
      'systems/new-one/replace/e1-old-part/',
      'systems/old-one/replace/e1-new-part/',
      'systems/old-one/replace/e1-old-part/',
      'systems/older-one/replace/e1-new-part/',
      'systems/older-one/replace/e1-old-part/',
    ]);
  });
});

property('every path of old leads to the path it was made from', 300, (from) => {
  const name = () =>
    from.pick(['new-one', 'new-two', 'other', 'is-cold', 'new-part', 'other-word']);
  const path = from.pick([
    () => `systems/${name()}/`,
    () => `systems/${name()}/as-found/index.html`,
    () => `systems/${name()}/replace/${from.pick(['e1', 'q12', 'aa3'])}-${name()}/`,
    () => `systems/${name()}/sequences/${name()}/`,
    () => `devices/${name()}/`,
    () => `glossary/${name()}/`,
    () => `data/systems/${name()}.json`,
    () => `job/${name()}.svg`,
  ])();
  for (const old of formerPaths(FORMER, path)) {
    expect(old).not.toBe(path);
    expect(currentPath(FORMER, old)).toBe(path);
  }
});
