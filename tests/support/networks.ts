import {
  type Branch,
  BranchIndex,
  type Complex,
  complex,
  type Instrument,
  type Network,
  planElimination,
  REFERENCE,
} from '../../src/circuit/index.ts';
import type { BareBranch } from './dense.ts';
import type { Random } from './random.ts';

/** The same network with other branches, its elimination planned anew. */
export function withBranches(network: Network, branches: readonly Branch[]): Network {
  return {
    ...network,
    branches,
    topology: planElimination(network.nodes.length, branches),
    branchIndex: new BranchIndex(branches),
  };
}

/** The same network with an instrument's burden between two nodes as a real branch. */
export function withMeter(
  network: Network,
  from: number,
  to: number,
  { ohms, farads }: Pick<Instrument, 'ohms' | 'farads'>,
): Network {
  const meter: Branch = { kind: 'stray', id: 'meter', from, to, farads, siemens: 1 / ohms };
  return withBranches(network, [...network.branches, meter]);
}

/** Node of the protective conductor where the supply enters: what voltages are read to. */
export function earthNode(network: Network): number {
  const earth = network.branches.find(
    ({ kind, id }) => kind === 'supply' && id.endsWith('supply earth'),
  );
  if (!earth) throw new Error(`${network.id} has no supply`);
  return earth.from;
}

/** What a random bare network is made of. */
export interface Recipe {
  readonly nodes: number;
  /** Range of the admittances' sizes, siemens, even in their logarithm. */
  readonly low: number;
  readonly high: number;
  /** Angles between which admittances lie, degrees: −90 an inductance, +90 a capacitance. */
  readonly angles: readonly [number, number];
}

/** A random connected network: a tree from the reference, and as many branches again. */
export function randomBranches(from: Random, recipe: Recipe): BareBranch[] {
  const { nodes, low, high, angles } = recipe;
  const y = (): Complex => {
    const size = from.spread(low, high);
    const angle = ((angles[0] + (angles[1] - angles[0]) * from.next()) * Math.PI) / 180;
    return complex(size * Math.cos(angle), size * Math.sin(angle));
  };
  const tree = Array.from({ length: nodes }, (_, i) => ({
    from: i,
    to: i === 0 ? REFERENCE : from.below(i + 1) - 1,
    y: y(),
  }));
  const extra = Array.from({ length: nodes }, () => ({
    from: from.below(nodes),
    to: from.below(nodes + 1) - 1,
    y: y(),
  }));
  return [...tree, ...extra.filter((b) => b.from !== b.to)];
}

/** A random current into each node, amperes, of size about one. */
export function randomCurrents(from: Random, nodes: number): Complex[] {
  return Array.from({ length: nodes }, () => complex(2 * from.next() - 1, 2 * from.next() - 1));
}
