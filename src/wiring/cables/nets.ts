import type { Branch, CircuitNode, Network } from '../../circuit/index.ts';

/** What a conductor is for, as its marking has to tell. */
export type Carries = 'line' | 'neutral' | 'earth' | 'extra-low';

/** Points joined without a contact, fuse or load between them, and what they are for. */
export interface Nets {
  /** Number of the net that a node belongs to. */
  readonly of: (node: number) => number;
  readonly carries: (node: number) => Carries;
  /** Whether a permanent live is joined to the node. */
  readonly permanent: (node: number) => boolean;
  /** Items joined by it, terminal boxes and wiring centres left out: they only pass it on. */
  readonly items: (node: number) => ReadonlySet<string>;
}

/** Works out a network's nets from its cores, wire links and joins inside devices. */
export function netsOf(network: Network): Nets {
  const parent = network.nodes.map((_, i) => i);
  const of = (node: number): number => {
    let at = node;
    while (parent[at] !== at) at = parent[at] = parent[parent[at]!]!;
    return at;
  };
  for (const branch of network.branches) {
    if (isJoin(branch)) parent[of(branch.from)] = of(branch.to);
  }
  const members = Map.groupBy(
    network.nodes.filter((n) => n.terminal),
    (n) => of(n.index),
  );
  const at = (node: number): readonly CircuitNode[] => members.get(of(node)) ?? [];
  const some = (node: number, carries: string) =>
    at(node).some(({ terminal }) => terminal!.carries === carries);
  return {
    of,
    carries(node) {
      if (some(node, 'earth')) return 'earth';
      if (some(node, 'neutral')) return 'neutral';
      const low = at(node).some(
        ({ terminal }) => terminal!.voltage === 'extra-low' || terminal!.carries === 'call',
      );
      return low ? 'extra-low' : 'line';
    },
    permanent: (node) => some(node, 'line'),
    items: (node) =>
      new Set(at(node).flatMap(({ item }) => (item && !onlyJoins(network, item) ? [item] : []))),
  };
}

/** Whether an item does nothing but join what is put in it: a terminal box, a wiring centre. */
export const onlyJoins = (network: Network, item: string): boolean =>
  network.items.get(item)?.device.family === 'wiring centre';

const isJoin = (branch: Branch): boolean =>
  branch.kind === 'conductor' ||
  branch.kind === 'wire link' ||
  (branch.kind === 'element' && branch.element.kind === 'link');
