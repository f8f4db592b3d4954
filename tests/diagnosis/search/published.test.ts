import { describe, expect, it } from 'vitest';
import {
  huffmanBound,
  type SearchProblem,
  solveSequence,
  walkTree,
} from '../../../src/diagnosis/search/index.ts';
import { bitsPerMinute, evenCount, greedyMinutes } from './greedy.ts';

/** Pattipati & Alexandridis, IEEE Trans. SMC 20(4), 1990, worked example: one row a state. */
const PRIORS = [0.7, 0.01, 0.02, 0.1, 0.05, 0.12];
const SIGNATURES = ['00000', '01001', '00110', '10011', '11000', '11110'];

function unitCost(priors: readonly number[], rows: readonly string[]): SearchProblem {
  return {
    faults: priors.map((weight, repair) => ({ weight, repair })),
    tests: [...rows[0]!].map((_, t) => ({
      id: `t${t + 1}`,
      minutes: 1,
      mode: 0,
      place: -1,
      answers: rows.map((row) => Number(row[t])),
    })),
    modeMinutes: [0],
    placeMinutes: [],
    start: { mode: 0, opened: [] },
  };
}

describe('worked example of Pattipati & Alexandridis, IEEE Trans. SMC 20(4), 1990', () => {
  const problem = unitCost(PRIORS, SIGNATURES);

  it('costs 2.18 at best; the paper’s optimum, reached from two first tests', () => {
    const { minutes, lowerBound, proven, tree } = solveSequence(problem);
    expect(proven).toBe(true);
    expect(minutes).toBeCloseTo(2.18, 10);
    expect(lowerBound).toBe(minutes);
    expect(walkTree(problem, tree).minutes).toBeCloseTo(2.18, 10);
  });

  it('costs 2.86 by most information, 2.89 by halves of the number', () => {
    expect(greedyMinutes(problem, bitsPerMinute)).toBeCloseTo(2.86, 10);
    expect(greedyMinutes(problem, evenCount)).toBeCloseTo(2.89, 10);
  });

  it('is bounded by a Huffman code of 1.59 and an entropy of 1.4549 bit', () => {
    const code = huffmanBound(Float64Array.from(PRIORS), PRIORS.length, 2);
    expect(code).toBeCloseTo(1.59, 10);
    expect(PRIORS.reduce((bits, p) => bits - p * Math.log2(p), 0)).toBeCloseTo(1.4549, 4);
    expect(solveSequence(problem, 0).lowerBound).toBeGreaterThanOrEqual(code - 1e-9);
  });
});

/**
 * Faults numbered in k bits, all equally likely. Each bit can be read outside for a little
 * less than opening the one place, inside which every bit is read for next to nothing.
 */
function sharedOpening(bits: number): SearchProblem {
  const faults = Array.from({ length: 2 ** bits }, (_, repair) => ({ weight: 1, repair }));
  const test = (bit: number, inside: boolean) => ({
    id: `${inside ? 'inside' : 'outside'} ${bit}`,
    minutes: inside ? 0.01 : 5,
    mode: 0,
    place: inside ? 0 : -1,
    answers: faults.map(({ repair }) => (repair >> bit) & 1),
  });
  const every = Array.from({ length: bits }, (_, bit) => bit);
  return {
    faults,
    tests: [...every.map((bit) => test(bit, false)), ...every.map((bit) => test(bit, true))],
    modeMinutes: [0],
    placeMinutes: [5],
    start: { mode: 0, opened: [] },
  };
}

describe('greedy beaten by a factor that grows', () => {
  // Garey & Graham, Performance bounds on the splitting algorithm for binary testing, Acta
  // Informatica 3, 1974: even with equal priors no factor bounds greedy against the optimum.
  it.each([1, 2, 3, 4, 5, 6])('%i bits: greedy pays for each, the optimum opens once', (bits) => {
    const problem = sharedOpening(bits);
    const { minutes, proven } = solveSequence(problem);
    expect(proven).toBe(true);
    expect(minutes).toBeCloseTo(Math.min(5 * bits, 5 + 0.01 * bits), 9);
    expect(greedyMinutes(problem, bitsPerMinute)).toBeCloseTo(5 * bits, 9);
  });
});

describe('codes', () => {
  it('merges the lightest: Huffman, Proc. IRE 40(9), 1952, example of 13 messages, 3.42 digits', () => {
    // The example's probabilities and mean length: from memory.
    const weights = [0.2, 0.18, 0.1, 0.1, 0.1, 0.06, 0.06, 0.04, 0.04, 0.04, 0.04, 0.03, 0.01];
    expect(huffmanBound(Float64Array.from(weights), weights.length, 2)).toBeCloseTo(3.42, 10);
  });

  it('pads a code of more digits so that only its deepest node is short', () => {
    expect(huffmanBound(Float64Array.of(1, 1, 1, 1), 4, 3)).toBeCloseTo(6, 12);
    expect(huffmanBound(Float64Array.of(3, 1, 2), 3, 3)).toBeCloseTo(6, 12);
    expect(huffmanBound(Float64Array.of(4), 1, 3)).toBe(0);
  });
});
