import { polish } from './anytime.ts';
import { Search } from './exact.ts';
import { answersOf } from './order.ts';
import type { SearchProblem, SearchResult, SearchTree } from './problem.ts';
import { type Reduced, reduce } from './reduce.ts';
import { changesOnly, entriesOnly, glancesOnly, openingsOnly } from './relax.ts';
import { RoomSearch } from './rooms.ts';
import type { State } from './state.ts';

/**
 * States that a search may expand unless told otherwise: some twenty seconds and two gigabytes
 * for three hundred bundles and seven hundred tests, a second for a hundred.
 */
export const SEARCH_BUDGET = 40_000;

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
  const search = new Search(reduced, meter, rooms);
  const bundles = Array.from(reduced.weights.keys());
  const root = search.state(bundles, reduced.mode, 0, 0);
  if (!root) {
    const tree: SearchTree = { kind: 'end', faults: problem.faults.map((_, fault) => fault) };
    return { tree, minutes: 0, lowerBound: 0, proven: true, gap: 0, expanded: 0 };
  }
  const glances = glancesOnly(reduced);
  polish(root, Math.floor(budget / (glances ? 16 : 4)));
  const share = Math.floor(budget / 8);
  if (!root.done) search.solve(root, glances ? share : budget - meter.expanded);
  if (glances && !root.done) {
    // Looks divide so finely that their order hides the bound: it is sought without that.
    rooms.bound(bundles, reduced.mode, 0, 0, budget - share - meter.expanded);
    const simpler = new Search(glances, meter, rooms, 2);
    const start = simpler.state(bundles, reduced.mode, 0, 0);
    if (start) {
      // A good tree here is worth its states: it tells which branches need no further bound.
      polish(start, Math.floor(budget / 4));
      if (meter.expanded < budget) simpler.solve(start, budget - meter.expanded);
      root.lower = Math.max(root.lower, Math.min(start.lower, root.upper));
    }
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
  const { index } = reduced.tests[move.test]!;
  const faults = faultsOf(reduced, bundles);
  const nexts = state.search.next(state, move);
  let { cost } = move;
  const bundleOf = new Map(bundles.map((bundle) => [reduced.members[bundle]![0]!, bundle]));
  const branches = answersOf(problem, index, faults).map(([answer, part]) => {
    const own = part.flatMap((fault) => bundleOf.get(fault) ?? []);
    const next = nexts.find(({ view }) => own.includes(view.members[0]!));
    if (!next) return { answer, next: { kind: 'end', faults: part } as const };
    const below = treeOf(problem, reduced, next, own);
    cost += below.cost;
    return { answer, next: below.tree };
  });
  return { tree: { kind: 'test', test: index, faults, branches }, cost };
}

function faultsOf({ members }: Reduced, bundles: readonly number[]): number[] {
  return bundles.flatMap((bundle) => members[bundle]!).sort((a, b) => a - b);
}
