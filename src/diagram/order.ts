import type { Network } from '../circuit/index.ts';

/** Items up to which every order is weighed. */
const MOST_EXACT = 15;

/** How many conductors run between each two items, by index. */
type Ties = readonly (readonly number[])[];

/**
 * Order of the items from top to bottom: the supply first, then so that few conductors pass
 * between neighbours. The sum over the gaps of the square of what passes is least, which
 * keeps the widest gap narrow; of equal orders the author's comes first.
 */
export function itemOrder(network: Network): string[] {
  const items = [...network.items.keys()];
  const ties = tiesOf(network, items);
  const supply = items.findIndex((item) => network.items.get(item)!.device.family === 'supply');
  const first = Math.max(0, supply);
  const order = items.length <= MOST_EXACT ? exact(ties, first) : greedy(ties, first);
  return order.map((i) => items[i]!);
}

function tiesOf(network: Network, items: readonly string[]): Ties {
  const ties = items.map(() => items.map(() => 0));
  const itemAt = (node: number) => items.indexOf(network.nodes[node]?.item ?? '');
  for (const branch of network.branches) {
    if (branch.kind !== 'conductor') continue;
    const [a, b] = [itemAt(branch.from), itemAt(branch.to)];
    if (a === -1 || b === -1 || a === b) continue;
    ties[a]![b]!++;
    ties[b]![a]!++;
  }
  return ties;
}

/** Conductors that leave a set of items, given as bits. */
function leaving(ties: Ties, set: number): number {
  let count = 0;
  for (const [i, row] of ties.entries()) {
    if (!(set & (1 << i))) continue;
    for (const [j, tie] of row.entries()) if (!(set & (1 << j))) count += tie;
  }
  return count;
}

/** Least sum over all orders by dynamic programming over sets of items already placed. */
function exact(ties: Ties, first: number): number[] {
  const n = ties.length;
  const full = (1 << n) - 1;
  const cost = new Float64Array(full + 1).fill(Number.POSITIVE_INFINITY);
  const last = new Int8Array(full + 1).fill(-1);
  cost[1 << first] = 0;
  last[1 << first] = first;
  for (let set = 1; set < full; set++) {
    if (cost[set] === Number.POSITIVE_INFINITY) continue;
    const next = cost[set]! + leaving(ties, set) ** 2;
    for (let i = 0; i < n; i++) {
      const grown = set | (1 << i);
      if (grown === set || next >= cost[grown]!) continue;
      cost[grown] = next;
      last[grown] = i;
    }
  }
  const order: number[] = [];
  for (let set = full; set !== 0; set &= ~(1 << last[set]!)) order.unshift(last[set]!);
  return order;
}

/** The item that leaves the fewest conductors open comes next. */
function greedy(ties: Ties, first: number): number[] {
  const order = [first];
  const open = (i: number) =>
    ties[i]!.reduce((sum, tie, j) => sum + (order.includes(j) ? -tie : tie), 0);
  while (order.length < ties.length) {
    const rest = ties.map((_, i) => i).filter((i) => !order.includes(i));
    order.push(rest.reduce((best, i) => (open(i) < open(best) ? i : best)));
  }
  return order;
}
