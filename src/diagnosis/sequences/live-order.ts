import type { Simulation } from '../../circuit/index.ts';
import { livePaths } from '../../wiring/index.ts';
import type { SequenceProblem } from '../planning/index.ts';
import { orderPolicyTree, type SearchTree, walkTree } from '../search/index.ts';
import type { Test } from '../tests/index.ts';

/**
 * Minutes that someone takes who works along the live paths instead: from the supply outwards,
 * first in the mode they stand in, then in the others; dead tests last and in the same order.
 * Readings that tell nothing of what is still open are passed over. Whichever is quicker on the
 * whole: every look in every mode first, or only those of the mode they stand in, where that
 * tells as much.
 *
 * @returns expected minutes.
 */
export function liveOrderMinutes(
  simulation: Simulation,
  made: SequenceProblem,
  mode: string,
): number {
  const { problem, tests } = made;
  const order = liveOrder(simulation, tests, mode);
  const looks = orderPolicyTree(problem, order);
  const fewer = orderPolicyTree(
    problem,
    order.filter((i) => tests[i]!.kind !== 'look' || tests[i]!.mode === mode),
  );
  const minutes = (tree: SearchTree) => walkTree(problem, tree).minutes;
  return ends(fewer) === ends(looks) ? Math.min(minutes(looks), minutes(fewer)) : minutes(looks);
}

/** Ends told apart: more of them where a tree leaves less open. */
const ends = (tree: SearchTree): number =>
  tree.kind === 'end' ? 1 : tree.branches.reduce((sum, { next }) => sum + ends(next), 0);

/** Places of the tests, as someone takes them who works along the live paths. */
function liveOrder(simulation: Simulation, tests: readonly Test[], mode: string): number[] {
  const hop = hopOf(simulation);
  const modes = [mode, ...[...simulation.modes.keys()].filter((other) => other !== mode)];
  const rank = (test: Test): number[] => {
    if (test.kind === 'look') return [0, modes.indexOf(test.mode), 0];
    if (test.kind === 'fuse' || test.kind === 'act') return [2, 0, 0];
    const { from, to } = test.pair;
    const along = Math.min(
      hop.get(from) ?? Infinity,
      hop.has(from) ? Infinity : (hop.get(to) ?? Infinity),
    );
    return [test.kind === 'live' ? 1 : 2, modes.indexOf(test.mode), along];
  };
  const ranks = tests.map(rank);
  return [...tests.keys()].sort((a, b) => {
    const [one, other] = [ranks[a]!, ranks[b]!];
    const at = one.findIndex((value, i) => value !== other[i]);
    return at < 0 ? a - b : one[at]! - other[at]!;
  });
}

const known = new WeakMap<Simulation, ReadonlyMap<string, number>>();

/** How many hops from the supply each terminal is, on the live path that reaches it soonest. */
function hopOf(simulation: Simulation): ReadonlyMap<string, number> {
  const before = known.get(simulation);
  if (before) return before;
  const hops = new Map<string, number>();
  for (const path of livePaths(simulation)) {
    path.hops.forEach(({ point }, i) => {
      hops.set(point, Math.min(i, hops.get(point) ?? Infinity));
    });
  }
  known.set(simulation, hops);
  return hops;
}
