import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { readList, renameKept, writeList } from '../../src/components/scripts/kept.ts';
import { takeOverKept } from '../../src/former/index.ts';

const PINS = 'proveline.pins';
const page = { path: '/systems/a/', title: 'A', kind: 'system' };
let kept: Map<string, string>;

beforeEach(() => {
  kept = new Map();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => kept.set(key, value),
    removeItem: (key: string) => kept.delete(key),
  });
});
afterEach(() => {
  vi.unstubAllGlobals();
});

describe('pages that a reader pinned', () => {
  test('come back as they were kept, under the name that stands for this shape', () => {
    writeList('pins', [page]);
    expect(kept).toEqual(new Map([[PINS, JSON.stringify([page])]]));
    expect(readList('pins')).toEqual([page]);
  });

  test.each([
    ['cut short', '[{"path":"/systems/a/"'],
    ['another thing', '{"pages":[]}'],
    ['a figure', '7'],
    ['a page without a title', '[{"path":"/systems/a/"}]'],
    ['a place elsewhere', '[{"path":"https://x.example/","title":"X"}]'],
    ['a place elsewhere, by two slashes', '[{"path":"//x.example/","title":"X"}]'],
  ])('and are now %s are none, and set aside before others are kept', (_, text) => {
    kept.set(PINS, text);
    expect(readList('pins')).toEqual([]);
    writeList('pins', [page]);
    expect(readList('pins')).toEqual([page]);
    expect(kept.get(`${PINS}.unread`)).toBe(text);
  });

  test('of which some can be read are those', () => {
    const text = JSON.stringify([7, page, { ...page, kind: undefined }]);
    kept.set(PINS, text);
    expect(readList('pins')).toEqual([page, { ...page, kind: '' }]);
    writeList('pins', readList('pins'));
    expect(kept.get(`${PINS}.unread`)).toBe(text);
  });

  test('of which none is left are none, and nothing is set aside', () => {
    kept.set(PINS, '[]');
    writeList('pins', [page]);
    expect([...kept.keys()]).toEqual([PINS]);
  });

  test('do without storage', () => {
    vi.stubGlobal('localStorage', undefined);
    writeList('pins', [page]);
    expect(readList('pins')).toEqual([]);
  });
});

describe('pages kept under an address that they had before', () => {
  const old = { ...page, path: '/systems/of-old/', title: 'Of old' };
  const other = { path: '/systems/b/', title: 'B', kind: 'system' };
  const onPage = (formerly?: string) => {
    vi.stubGlobal('location', { pathname: page.path });
    vi.stubGlobal('document', { body: { dataset: { kind: 'system', title: 'A', formerly } } });
    renameKept();
  };

  test('stand in their place under the address of now once the page is opened', () => {
    writeList('pins', [other, old]);
    writeList('recents', [old, page, other]);
    onPage('/systems/older/ /systems/of-old/');
    expect(readList('pins')).toEqual([other, page]);
    expect(readList('recents')).toEqual([page, other]);
  });

  test('stay as they are on a page that was never called otherwise', () => {
    writeList('pins', [old]);
    onPage();
    expect(readList('pins')).toEqual([old]);
  });
});

describe('what is kept under a former name', () => {
  test('is kept under the name of now, unless something is kept there', () => {
    kept.set('marks.old', 'mine').set('marks.older', 'mine too');
    takeOverKept('marks.now', ['marks.missing', 'marks.old', 'marks.older']);
    expect([...kept]).toEqual([
      ['marks.older', 'mine too'],
      ['marks.now', 'mine'],
    ]);
  });

  test('stays where storage is full', () => {
    kept.set('marks.old', 'mine');
    vi.stubGlobal('localStorage', {
      ...localStorage,
      setItem: () => {
        throw new DOMException('full', 'QuotaExceededError');
      },
    });
    takeOverKept('marks.now', ['marks.old']);
    expect([...kept]).toEqual([['marks.old', 'mine']]);
  });
});
