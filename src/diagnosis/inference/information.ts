import type { Test } from '../tests/index.ts';
import { ANSWER_CODES } from './codes.ts';
import { misreadingOf } from './likelihood.ts';
import { alphabetOf, askedBy } from './question.ts';

/** Explanations with one row of answers and one repair, and their probability together. */
export interface Unit {
  readonly row: Uint8Array;
  readonly share: number;
}

/** Probabilities by repair and row; all shares add up to one. */
export type Belief = readonly (readonly Unit[])[];

/**
 * How much a test is expected to tell of which repair is needed, in bits: the mutual
 * information of its answer and the repair (the entropy-guided measurement of de Kleer and
 * Williams 1987, over repairs instead of faults), a misreading allowed for.
 */
export function informationOf(repairs: Belief, test: Test, at: number): number {
  const { first, size } = alphabetOf(askedBy(test));
  const slip = misreadingOf(test);
  const miss = slip / (size - 1);
  const hit = 1 - slip;
  const sure = -plogp(hit) - (size - 1) * plogp(miss);
  const all = new Float64Array(size);
  const own = new Float64Array(size);
  let within = 0;
  for (const units of repairs) {
    own.fill(0);
    let share = 0;
    for (const unit of units) {
      const code = unit.row[at]!;
      if (code === ANSWER_CODES.unsettled)
        for (let a = 0; a < size; a++) own[a]! += unit.share / size;
      else own[code - first]! += unit.share;
      share += unit.share;
    }
    if (share === 0) continue;
    let mixed = 0;
    let answers = 0;
    for (let a = 0; a < size; a++) {
      const mass = own[a]!;
      all[a]! += mass;
      if (mass > 0) answers++;
      mixed -= plogp(miss + (hit - miss) * (mass / share));
    }
    within += share * (answers === 1 ? sure : mixed);
  }
  let total = 0;
  for (let a = 0; a < size; a++) total -= plogp(miss + (hit - miss) * all[a]!);
  return Math.max(0, total - within);
}

/** Whether two repairs answer a test differently, each for certain. */
export function splits(repairs: Belief, at: number): boolean {
  let one = ANSWER_CODES.unsettled as number;
  for (const units of repairs) {
    for (const { row } of units) {
      const code = row[at]!;
      if (code === ANSWER_CODES.unsettled || code === one) continue;
      if (one !== ANSWER_CODES.unsettled) return true;
      one = code;
    }
  }
  return false;
}

const plogp = (p: number): number => (p > 0 ? p * Math.log2(p) : 0);
