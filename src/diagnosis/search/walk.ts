import type { SearchLeaf, SearchProblem, SearchTree } from './problem.ts';

/** What walking a tree with every fault comes to. */
export interface Walk {
  /** Expected minutes, the weights taken as probabilities. */
  readonly minutes: number;
  /** Minutes until each fault's end is reached. */
  readonly minutesOf: readonly number[];
  /** The end that each fault's answers lead to. */
  readonly ends: readonly SearchLeaf[];
}

/**
 * Follows each fault's own answers down a tree and adds up what its path costs. Shares
 * nothing with the search, so that it may check it.
 *
 * @throws RangeError when a step has no branch for an answer given there.
 */
export function walkTree(problem: SearchProblem, tree: SearchTree): Walk {
  const changes = cheapestChanges(problem.modeMinutes);
  const walks = problem.faults.map((_, fault) => walk(problem, changes, tree, fault));
  const total = problem.faults.reduce((sum, { weight }) => sum + weight, 0);
  return {
    minutes: walks.reduce(
      (sum, { minutes }, fault) => sum + (minutes * problem.faults[fault]!.weight) / total,
      0,
    ),
    minutesOf: walks.map(({ minutes }) => minutes),
    ends: walks.map(({ end }) => end),
  };
}

function walk(problem: SearchProblem, changes: number[][], tree: SearchTree, fault: number) {
  const opened = new Set(problem.start.opened);
  let { mode } = problem.start;
  let minutes = 0;
  let node = tree;
  while (node.kind === 'test') {
    const test = problem.tests[node.test]!;
    if (test.place >= 0 && !opened.has(test.place)) {
      opened.add(test.place);
      minutes += problem.placeMinutes[test.place]!;
      if (problem.openingMode !== undefined) {
        minutes += changes[mode]![problem.openingMode]!;
        mode = problem.openingMode;
      }
    }
    minutes += changes[mode]![test.mode]! + test.minutes;
    mode = test.mode;
    const given = test.answers[fault]!;
    const branch = node.branches.find(({ answer }) => answer === given);
    if (!branch) throw new RangeError(`${test.id} has no branch for ${given}, as fault ${fault}`);
    node = branch.next;
  }
  return { minutes, end: node };
}

/** Least minutes from each mode to each, relaxed until nothing changes. */
function cheapestChanges(given: SearchProblem['modeMinutes']): number[][] {
  const best = given.map((_, from) =>
    given.map((entry, to) => {
      if (from === to) return 0;
      return typeof entry === 'number' ? entry : (given as readonly number[][])[from]![to]!;
    }),
  );
  for (let changed = true; changed; ) {
    changed = false;
    for (const row of best) {
      for (let by = 0; by < best.length; by++) {
        for (let to = 0; to < best.length; to++) {
          const around = row[by]! + best[by]![to]!;
          if (around >= row[to]!) continue;
          row[to] = around;
          changed = true;
        }
      }
    }
  }
  return best;
}
