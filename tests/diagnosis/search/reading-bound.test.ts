import { describe, expect, it } from 'vitest';
import { partitionsOf } from '../../../src/diagnosis/search/partition.ts';
import { ReadingBound } from '../../../src/diagnosis/search/reading-bound.ts';
import { reduce } from '../../../src/diagnosis/search/reduce.ts';

interface Told {
  readonly minutes: number;
  readonly answers: readonly number[];
}

/** The bound, times the weights given, for faults of these weights, each of a repair of its own, over all of these tests. */
function boundOf(weights: readonly number[], tests: readonly Told[]): number {
  const reduced = reduce({
    faults: weights.map((weight, repair) => ({ weight, repair })),
    tests: tests.map((test, i) => ({ id: `test ${i}`, mode: 0, place: -1, ...test })),
    modeMinutes: [0],
    placeMinutes: [],
    start: { mode: 0, opened: [] },
  });
  const members = [...reduced.weights.keys()];
  const partitions = partitionsOf(reduced, members, [...reduced.tests.keys()]);
  const bound = new ReadingBound(reduced);
  const sum = (numbers: Iterable<number>) => [...numbers].reduce((a, b) => a + b, 0);
  const least = bound.least(members, bound.alphabetsOf(partitions));
  return (least * sum(weights)) / sum(reduced.weights);
}

// Huffman's code, Proc. IRE 40 (1952), and its form for more than two letters: the sums by hand.
describe('what any order of tests takes for readings', () => {
  it('is no more than one test that tells three at once', () => {
    expect(boundOf([5, 5, 1], [{ minutes: 1, answers: [0, 1, 2] }])).toBeCloseTo(11, 6);
    expect(boundOf([1, 1, 1], [{ minutes: 2, answers: [0, 1, 2] }])).toBeCloseTo(6, 6);
  });

  it('is Huffman’s binary code where no test has more than two answers', () => {
    const apart = [0, 1, 2, 3].map((fault) => ({
      minutes: 1,
      answers: [0, 1, 2, 3].map((one) => Number(one === fault)),
    }));
    // 8 · 1 + 4 · 2 + 2 · 3 + 1 · 3
    expect(boundOf([8, 4, 2, 1], apart)).toBeCloseTo(25, 6);
  });

  it('pays a dear test only for what the cheap ones leave together', () => {
    const halves = { minutes: 1, answers: [0, 0, 1, 1] };
    const ends = { minutes: 3, answers: [0, 1, 0, 1] };
    // Two tests each at a minute or more, of which one at three: 4 · 2 · 1 + 4 · 2.
    expect(boundOf([1, 1, 1, 1], [halves, ends])).toBeCloseTo(16, 6);
  });

  it('knows of a dear test that has three answers, though the cheap ones have two', () => {
    const halves = { minutes: 1, answers: [0, 0, 0, 1, 1, 1] };
    const thirds = { minutes: 3, answers: [0, 1, 2, 0, 1, 2] };
    // One of each, and each is needed: 6 · (1 + 3) at the most.
    expect(boundOf([1, 1, 1, 1, 1, 1], [halves, thirds])).toBeLessThanOrEqual(24);
    expect(boundOf([1, 1, 1, 1, 1, 1], [halves, thirds])).toBeGreaterThan(12);
  });
});
