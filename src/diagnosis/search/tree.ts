import type { SearchProblem, SearchTree } from './problem.ts';

/** Trees of tests over the faults and tests of a problem as given. */

/**
 * Tree of someone who keeps to a fixed order: always the first test in it that divides what
 * is left, until the faults left share one repair or no test in it divides them.
 *
 * @param order indices of tests.
 */
export function orderPolicyTree(problem: SearchProblem, order: readonly number[]): SearchTree {
  return treeFrom(
    problem,
    order,
    problem.faults.map((_, fault) => fault),
  );
}

function treeFrom(
  problem: SearchProblem,
  order: readonly number[],
  faults: readonly number[],
): SearchTree {
  const repair = problem.faults[faults[0]!]!.repair;
  if (faults.every((fault) => problem.faults[fault]!.repair === repair)) {
    return { kind: 'end', faults };
  }
  const at = order.findIndex((index) => divides(problem, index, faults));
  if (at < 0) return { kind: 'end', faults };
  const test = order[at]!;
  const rest = order.slice(at + 1);
  return stepOf(problem, test, faults, (part) => treeFrom(problem, rest, part));
}

/** One step of a tree: a test, and for each of its answers what follows. */
export function stepOf(
  problem: SearchProblem,
  test: number,
  faults: readonly number[],
  after: (faults: readonly number[]) => SearchTree,
): SearchTree {
  const branches = answersOf(problem, test, faults).map(([answer, part]) => ({
    answer,
    next: after(part),
  }));
  return { kind: 'test', test, faults, branches };
}

function divides({ tests }: SearchProblem, index: number, faults: readonly number[]): boolean {
  const { answers } = tests[index]!;
  return faults.some((fault) => answers[fault] !== answers[faults[0]!]);
}

/** The answers that some faults give to a test, ascending, with the faults that give each. */
export function answersOf(
  { tests }: SearchProblem,
  index: number,
  faults: readonly number[],
): [answer: number, faults: number[]][] {
  const { answers } = tests[index]!;
  return [...Map.groupBy(faults, (fault) => answers[fault]!)].sort(([a], [b]) => a - b);
}

/**
 * The steps that one test of a reduced problem stands for: the test itself, or several that
 * cost nothing, those first that give the most information about what is left; at an open place
 * as they are listed, since dead is proved before anything is touched. A test is left out where it divides nothing, or where one repair mends all that is left.
 *
 * @param indices of these tests in the problem.
 * @param after gives the tree for faults that answer alike to all of them.
 */
export function stepsOf(
  problem: SearchProblem,
  indices: readonly number[],
  faults: readonly number[],
  after: (faults: readonly number[]) => SearchTree,
): SearchTree {
  const repair = problem.faults[faults[0]!]!.repair;
  const isOne = faults.every((fault) => problem.faults[fault]!.repair === repair);
  const listed = problem.tests[indices[0]!]?.place !== -1;
  const test = isOne
    ? null
    : listed
      ? (indices.find((index) => divides(problem, index, faults)) ?? null)
      : mostDividing(problem, indices, faults);
  if (test === null) return after(faults);
  const rest = indices.filter((index) => index !== test);
  return stepOf(problem, test, faults, (part) => stepsOf(problem, rest, part, after));
}

/** The test that gives the most information, bits, the first of equals; null where no test divides. */
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
