import { polish } from './anytime.ts';
import { Search } from './exact.ts';
import type { SearchProblem, SearchResult, SearchTree } from './problem.ts';
import { type Reduced, reduce } from './reduce.ts';
import { changesOnly, entriesOnly, openingsOnly } from './relax.ts';
import { RoomSearch } from './rooms.ts';
import type { State } from './state.ts';
import { stepsOf } from './steps.ts';

/**
 * States that a search may expand unless told otherwise: some thirty seconds and two gigabytes
 * for three hundred bundles and seven hundred tests, a second for a hundred.
 */
export const SEARCH_BUDGET = 60_000;
/** Rooms that the search for the cheapest to enter may expand each time it is asked. */
const ROOM_EFFORT = 2;

/**
 * A tree of tests that ends where the faults left share one repair, or where no test tells
 * them apart, at the least expected minutes found, with a bound that no tree goes below.
 * Equal problems and budgets give equal results everywhere: nothing is timed.
 *
 * @param budget states that the search, with the simpler ones that bound it, may expand.
 * @throws RangeError when the problem holds a number out of range; the message says which.
 */
export function solveSequence(problem: SearchProblem, budget = SEARCH_BUDGET): SearchResult {
  const reduced = reduce(problem);
  const meter = { expanded: 0 };
  const rooms = new RoomSearch(entriesOnly(reduced), meter, [
    new RoomSearch(openingsOnly(reduced), meter),
    new RoomSearch(changesOnly(reduced), meter),
  ]);
  const search = new Search(reduced, meter, rooms, ROOM_EFFORT);
  const bundles = Array.from(reduced.weights.keys());
  const root = search.state(bundles, reduced.mode, 0, 0);
  if (!root) {
    const tree: SearchTree = { kind: 'end', faults: problem.faults.map((_, fault) => fault) };
    return { tree, minutes: 0, lowerBound: 0, proven: true, gap: 0, expanded: 0 };
  }
  polish(root, Math.floor(budget / 8));
  if (!root.done) {
    // What the rooms cost bounds every way at once: it is worth its states before all others.
    rooms.bound(bundles, reduced.mode, 0, 0, Math.floor(budget / 4));
    search.solve(root, budget - meter.expanded);
  }
  const made = treeOf(problem, reduced, root, bundles);
  const minutes = made.cost / root.view.weight;
  const proven = root.done || root.lower >= made.cost;
  const lowerBound = proven ? minutes : root.lower / root.view.weight;
  return {
    tree: made.tree,
    minutes,
    lowerBound,
    proven,
    gap: proven ? 0 : 1 - lowerBound / minutes,
    expanded: meter.expanded,
  };
}

/** The tree known from a state, in faults and tests of the problem given, with its cost. */
function treeOf(
  problem: SearchProblem,
  reduced: Reduced,
  state: State,
  bundles: readonly number[],
): { tree: SearchTree; cost: number } {
  const move = state.best!;
  const { indices } = reduced.tests[move.test]!;
  const nexts = state.search.next(state, move);
  const bundleOf = new Map(bundles.map((bundle) => [reduced.members[bundle]![0]!, bundle]));
  let { cost } = move;
  const tree = stepsOf(problem, indices, faultsOf(reduced, bundles), (part) => {
    const own = part.flatMap((fault) => bundleOf.get(fault) ?? []);
    const next = nexts.find(({ view }) => own.includes(view.members[0]!));
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
