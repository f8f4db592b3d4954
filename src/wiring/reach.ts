import { type Branch, type Network, REFERENCE } from '../circuit/index.ts';

/** Resistance below which a branch is a join and above which it is a load or an open, ohms. */
export const JOIN_OHMS = 10;

/**
 * Shortest ways, in branches, from one node to every node that can be reached.
 * The supply's star point is never passed through.
 * @param passes whether a branch may be passed.
 */
export function waysFrom(
  network: Network,
  start: number,
  passes: (branch: Branch, index: number) => boolean,
): Map<number, readonly Branch[]> {
  const touching = branchesByNode(network);
  const ways = new Map<number, readonly Branch[]>([[start, []]]);
  const queue = [start];
  for (const node of queue) {
    for (const i of touching[node]!) {
      const branch = network.branches[i]!;
      const next = branch.from === node ? branch.to : branch.from;
      if (next === REFERENCE || ways.has(next) || !passes(branch, i)) continue;
      ways.set(next, [...ways.get(node)!, branch]);
      queue.push(next);
    }
  }
  return ways;
}

const known = new WeakMap<Network, readonly (readonly number[])[]>();

/** Places of the branches at each node, in their order; the star point is no node. */
function branchesByNode(network: Network): readonly (readonly number[])[] {
  const made = known.get(network);
  if (made) return made;
  const touching: number[][] = network.nodes.map(() => []);
  for (const [i, { from, to }] of network.branches.entries()) {
    touching[from]?.push(i);
    if (to !== from) touching[to]?.push(i);
  }
  known.set(network, touching);
  return touching;
}
