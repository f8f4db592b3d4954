import { describe, expect, it } from 'vitest';
import { editDistance, nearest } from '../../src/entries/index.ts';

describe('the edits between two words', () => {
  // Damerau 1964: one letter added, dropped, changed, or two neighbours exchanged.
  it.each([
    ['', '', 0],
    ['feed', 'feed', 0],
    ['', 'abc', 3],
    ['fed', 'feed', 1],
    ['feeed', 'feed', 1],
    ['feet', 'feed', 1],
    ['fede', 'feed', 1],
    ['kitten', 'sitting', 3],
    // Optimal string alignment edits no part twice, so it needs one more than Damerau here.
    ['ca', 'abc', 3],
  ])('%s to %s are %i', (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance);
    expect(editDistance(b, a)).toBe(distance);
  });
});

describe('the nearest word', () => {
  const terminals = ['L', 'N', 'E', 'call feed', 'call return'];
  it.each([
    ['call fed', 'call feed'],
    ['call-return', 'call return'],
    ['Call Return', 'call return'],
    ['call retrun', 'call return'],
    ['l', 'L'],
    ['M', undefined],
    ['supply', undefined],
    ['SL', undefined],
  ])('to %s is %s', (found, word) => {
    expect(nearest(found, terminals)).toBe(word);
  });

  it('is the first of two equally near', () => {
    expect(nearest('valve 3', ['valve 1', 'valve 2'])).toBe('valve 1');
  });

  it('is not the word itself', () => {
    expect(nearest('feed', ['feed', 'feet'])).toBe('feet');
  });
});
