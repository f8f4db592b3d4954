import type { OrNode } from './and-or-graph.ts';
import { AoStar } from './ao-star.ts';
import type { SearchProblem, SearchResult, SearchTree } from './problem.ts';
import { type Reduced, reduce } from './reduce.ts';
import { changesOnly, openingsOnly, setupsOnly } from './relaxations.ts';
import { rollout } from './rollout.ts';
import { SetupSearch } from './setup-search.ts';
import { stepsOf } from './tree.ts';

/**
 * Nodes that a search may expand unless told otherwise: some thirty seconds and two gigabytes
 * for three hundred bundles and seven hundred tests, a second for a hundred.
 */
export const SEARCH_BUDGET = 60_000;
/** Nodes that the setup search may expand each time it is asked. */
const SETUP_EFFORT = 2;

/**
 * A tree of tests that ends where the faults left share one repair, or where no test tells
 * them apart, at the least expected minutes found, with a bound that no tree goes below.
 * Equal problems and budgets give equal results everywhere: nothing is timed.
 *
 * @param budget nodes that all searches together may expand.
 * @param start the tree begun with: a rollout, which looks at every node of a tree whatever the
 *   budget, or the greedy tree, where no more than the first step is wanted and that soon.
 * @throws RangeError when the problem holds a number out of range; the message says which.
 */
export function solveSequence(
  problem: SearchProblem,
  budget = SEARCH_BUDGET,
  start: 'rollout' | 'greedy' = 'rollout',
): SearchResult {
  const reduced = reduce(problem);
  const meter = { expanded: 0 };
  const setupSearch = new SetupSearch(setupsOnly(reduced), meter, [
    new SetupSearch(openingsOnly(reduced), meter),
    new SetupSearch(changesOnly(reduced), meter),
  ]);
  const search = new AoStar(reduced, meter, setupSearch, SETUP_EFFORT);
  const bundles = Array.from(reduced.weights.keys());
  const root = search.node(bundles, reduced.mode, reduced.opened);
  if (!root) {
    const tree: SearchTree = { kind: 'end', faults: problem.faults.map((_, fault) => fault) };
    return { tree, minutes: 0, lowerBound: 0, proven: true, gap: 0, expanded: 0 };
  }
  if (start === 'rollout') rollout(root, Math.floor(budget / 8));
  if (!root.solved) {
    // The setup cost from the root bounds every tree at once: worth a quarter of the budget first.
    setupSearch.bound(bundles, reduced.mode, reduced.opened, Math.floor(budget / 4));
    search.solve(root, budget - meter.expanded);
  }
  const made = treeOf(problem, reduced, root, bundles);
  const minutes = made.cost / root.suspects.weight;
  const proven = root.solved || root.lower >= made.cost;
  const lowerBound = proven ? minutes : root.lower / root.suspects.weight;
  return {
    tree: made.tree,
    minutes,
    lowerBound,
    proven,
    gap: proven ? 0 : 1 - lowerBound / minutes,
    expanded: meter.expanded,
  };
}

/** The tree known from a node, in faults and tests of the problem given, with its cost. */
function treeOf(
  problem: SearchProblem,
  reduced: Reduced,
  node: OrNode,
  bundles: readonly number[],
): { tree: SearchTree; cost: number } {
  const choice = node.best!;
  const { indices } = reduced.tests[choice.test]!;
  const nexts = node.search.successors(node, choice);
  const bundleOf = new Map(bundles.map((bundle) => [reduced.members[bundle]![0]!, bundle]));
  let { cost } = choice;
  const tree = stepsOf(problem, indices, faultsOf(reduced, bundles), (part) => {
    const own = part.flatMap((fault) => bundleOf.get(fault) ?? []);
    const next = nexts.find(({ suspects }) => own.includes(suspects.members[0]!));
    if (!next) return { kind: 'end', faults: part };
    const below = treeOf(problem, reduced, next, own);
    cost += below.cost;
    return below.tree;
  });
  return { tree, cost };
}

function faultsOf({ members }: Reduced, bundles: readonly number[]): number[] {
  return bundles.flatMap((bundle) => members[bundle]!).sort((a, b) => a - b);
}
