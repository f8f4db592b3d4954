import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { readList, writeList } from '../../src/components/scripts/kept.ts';

const PINS = 'proveline.pins';
const page = { path: '/systems/a/', title: 'A', kind: 'system' };
let kept: Map<string, string>;

beforeEach(() => {
  kept = new Map();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => kept.set(key, value),
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
