import { polish } from './anytime.ts';
import { Search } from './exact.ts';
import { answersOf } from './order.ts';
import type { SearchProblem, SearchResult, SearchTree } from './problem.ts';
import { type Reduced, reduce } from './reduce.ts';
import { changesOnly, entriesOnly, openingsOnly } from './relax.ts';
import type { State } from './state.ts';

/**
 * States that a search may expand unless told otherwise: some ten seconds and two gigabytes
 * for three hundred bundles and seven hundred tests, less than a second for a hundred.
 */
export const SEARCH_BUDGET = 24_000;

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
  const openings = new Search(openingsOnly(reduced), meter, { joins: true });
  const changes = new Search(changesOnly(reduced), meter, { joins: true });
  const entries = new Search(entriesOnly(reduced), meter, {
    joins: true,
    helpers: [openings, changes],
  });
  const search = new Search(reduced, meter, { helpers: [entries], effort: 300 });
  const bundles = Array.from(reduced.weights.keys());
  const root = search.state(bundles, reduced.mode, 0, 0);
  if (!root) {
    const tree: SearchTree = { kind: 'end', faults: problem.faults.map((_, fault) => fault) };
    return { tree, minutes: 0, lowerBound: 0, proven: true, gap: 0, expanded: 0 };
  }
  polish(root, Math.floor(budget / 4));
  const start = entries.state(bundles, reduced.mode, 0, 0);
  if (start && !root.done) entries.solve(start, Math.floor(budget / 4));
  search.solve(root, budget - meter.expanded);
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
