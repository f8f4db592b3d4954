import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  keepMarks,
  LONGEST_MARK,
  marksIn,
  readMarks,
} from '../../../src/components/replacement/kept-marks.ts';

const kept = new Map<string, string>();
const before = Object.getOwnPropertyDescriptor(globalThis, 'localStorage');
const store = (get: () => unknown) =>
  Object.defineProperty(globalThis, 'localStorage', { configurable: true, get });

beforeEach(() => {
  kept.clear();
  store(() => ({
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => kept.set(key, value),
    removeItem: (key: string) => kept.delete(key),
  }));
});
afterEach(() => {
  if (before) Object.defineProperty(globalThis, 'localStorage', before);
});

describe('marks typed beside terminals', () => {
  it('are kept by sheet, and forgotten when emptied', () => {
    expect(keepMarks('a', { 'old COM': '1', 'new L': ' ' })).toBe(true);
    expect([readMarks('a'), readMarks('b')]).toEqual([{ 'old COM': '1' }, {}]);
    keepMarks('a', { 'old COM': '' });
    expect(kept.size).toBe(0);
  });

  it('are read from nothing but marks, none longer than a mark', () => {
    for (const odd of [null, 7, 'COM', [], { COM: '1' }, { 'old COM': 1 }])
      expect(marksIn(odd)).toEqual({});
    expect(marksIn({ 'new L': 'x'.repeat(99) })['new L']).toHaveLength(LONGEST_MARK);
    kept.set('proveline.marks.a', '{"old COM":');
    expect(readMarks('a')).toEqual({});
  });

  it('do without storage', () => {
    store(() => {
      throw new Error('refused');
    });
    expect([keepMarks('a', { 'old COM': '1' }), readMarks('a')]).toEqual([false, {}]);
  });
});
