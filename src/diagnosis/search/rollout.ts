import type { AndNode, OrNode } from './and-or-graph.ts';
import { promising } from './candidates.ts';

/** Tests looked at from each node, the most information for their minutes first: by pass. */
const LOOKAHEADS = [6, 20, 6];
/** Nodes that the search below one node may expand when its turn comes. */
const EFFORT = 1000;
/** Bundles above which a node is not searched on its own. */
const LARGE = 80;

/**
 * The greedy tree: at every node the test that gives the most information about the repairs
 * for its cost, the first of equals. It is noted at the node and at all that follow.
 *
 * @returns the cost of the tree from the node.
 */
export function greedy(node: OrNode): number {
  if (node.upper < Infinity) return node.upper;
  const chosen = node.choices?.[0] ?? promising(node, 1)[0]!;
  let upper = chosen.cost;
  for (const next of node.search.bareSuccessors(node, chosen)) upper += greedy(next);
  node.upper = upper;
  node.best = chosen;
  return upper;
}

/**
 * Rollout: betters the tree known from a node. From the top down, each of the tests that
 * promise most is followed by the greedy tree and the cheapest is kept; from the bottom up,
 * whatever small is left below is searched. Ends after `budget` more nodes were expanded.
 * Source: information heuristics with rollout, Ruan, Tu, Pattipati and Patterson-Hine, IEEE
 * Trans. SMC-B 34(3), 2004.
 */
export function rollout(root: OrNode, budget: number): void {
  const { search } = root;
  const { meter } = search;
  const limit = meter.expanded + budget;
  greedy(root);
  for (const most of LOOKAHEADS) improve(root, most, limit);
}

function improve(root: OrNode, most: number, limit: number): void {
  const { meter } = root.search;
  const seen = new Set<OrNode>();
  better(root);

  function better(node: OrNode): void {
    if (node.solved || seen.has(node)) return;
    seen.add(node);
    for (const choice of promising(node, most)) recost(node, choice);
    for (const next of node.search.successors(node, node.best!)) better(next);
    recost(node, node.best!);
    if (node.suspects.members.length > LARGE || meter.expanded >= limit) return;
    node.search.solve(node, Math.min(EFFORT, limit - meter.expanded));
  }
}

/** Takes a test as the best where the trees known behind it make it so. */
function recost(node: OrNode, choice: AndNode): void {
  let upper = choice.cost;
  for (const next of node.search.successors(node, choice)) upper += next.upper;
  if (upper >= node.upper) return;
  node.upper = upper;
  node.best = choice;
}
