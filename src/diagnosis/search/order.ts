import type { SearchProblem, SearchTree } from './problem.ts';

/**
 * Tree of someone who keeps to a fixed order: always the first test in it that splits what
 * is left, until the faults left share one repair or no test in it splits them.
 *
 * @param order indices of tests; a test later in phase than one after it makes a tree that
 * {@link walkTree} refuses.
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
  const at = order.findIndex((index) => splits(problem, index, faults));
  if (at < 0) return { kind: 'end', faults };
  const test = order[at]!;
  const rest = order.slice(at + 1);
  return stepOf(problem, test, faults, (part) => treeFrom(problem, rest, part));
}

/** One step of a tree: a test, and what follows for the faults that answer it alike. */
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

function splits({ tests }: SearchProblem, index: number, faults: readonly number[]): boolean {
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
