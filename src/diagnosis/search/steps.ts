import { answersOf, stepOf } from './order.ts';
import type { SearchProblem, SearchTree } from './problem.ts';

/**
 * The steps that one test of a reduced problem stands for: the test itself, or several that
 * cost nothing, of which the one that divides what is left most comes first; none is taken
 * that divides nothing, nor where one repair mends all.
 *
 * @param indices of the tests in the problem.
 * @param after what follows for faults that answer alike to all of them.
 */
export function stepsOf(
  problem: SearchProblem,
  indices: readonly number[],
  faults: readonly number[],
  after: (faults: readonly number[]) => SearchTree,
): SearchTree {
  const repair = problem.faults[faults[0]!]!.repair;
  const isOne = faults.every((fault) => problem.faults[fault]!.repair === repair);
  const test = isOne ? null : mostDividing(problem, indices, faults);
  if (test === null) return after(faults);
  const rest = indices.filter((index) => index !== test);
  return stepOf(problem, test, faults, (part) => stepsOf(problem, rest, part, after));
}

/** The test with the most bits to tell, the first of equals; null where none divides. */
function mostDividing(
  problem: SearchProblem,
  indices: readonly number[],
  faults: readonly number[],
): number | null {
  let most = 0;
  let best: number | null = null;
  const whole = weightOf(problem, faults);
  for (const index of indices) {
    let bits = 0;
    for (const [, part] of answersOf(problem, index, faults)) {
      const share = weightOf(problem, part) / whole;
      bits -= share * Math.log2(share);
    }
    if (bits <= most + 1e-12) continue;
    most = bits;
    best = index;
  }
  return best;
}

function weightOf(problem: SearchProblem, faults: readonly number[]): number {
  let weight = 0;
  for (const fault of faults) weight += problem.faults[fault]!.weight;
  return weight;
}
