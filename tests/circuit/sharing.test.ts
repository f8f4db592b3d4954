import { describe, expect, it } from 'vitest';
import {
  changeNetwork,
  planElimination,
  REFERENCE,
  simulate,
  voltage,
} from '../../src/circuit/index.ts';
import { withBranches } from '../support/networks.ts';
import { loadSystem } from '../systems/load.ts';

const network = loadSystem('combi-two-wire');
const { nodes, branches } = network;

describe('one plan for all circuits of the same branches', () => {
  it('is shared where values alone differ, and by the same path laid twice', () => {
    const burnt = { kind: 'series', branch: 'W2.BN', ohms: 100 } as const;
    const path = { kind: 'join', from: 'E1.L', to: 'E1.N', ohms: 5 } as const;
    const one = changeNetwork(network, [path]);
    const other = changeNetwork(network, [burnt, { ...path, ohms: 7 }]);
    expect(other.topology).toBe(one.topology);
    expect(one.topology).not.toBe(network.topology);
    expect(planElimination(nodes.length, branches)).toBe(network.topology);
  });

  it('is another for another branch, another order, another direction, another node', () => {
    const ends = [
      { from: 0, to: REFERENCE },
      { from: 1, to: 0 },
      { from: 2, to: 1 },
    ];
    const plans = [
      planElimination(3, ends),
      planElimination(3, ends.toReversed()),
      planElimination(3, [...ends, { from: 2, to: 0 }]),
      planElimination(3, [ends[0]!, ends[1]!, { from: 1, to: 2 }]),
      planElimination(4, [...ends, { from: 3, to: 0 }]),
    ];
    expect(new Set(plans).size).toBe(plans.length);
    // Ends that come to one number in the search for a plan: 31 · 1 + 0 and 31 · 0 + 31.
    const alike = [
      planElimination(32, chain(32, { from: 1, to: 0 })),
      planElimination(32, chain(32, { from: 0, to: 31 })),
    ];
    expect(alike[0]!.slot).not.toEqual(alike[1]!.slot);
  });

  it('is made anew after a larger one as it was before', () => {
    const ends = chain(5, { from: 4, to: 2 });
    const before = structuredClone(planElimination(5, ends));
    planElimination(nodes.length, branches);
    // Another direction of the last branch: the same plan but for its sense.
    const turned = planElimination(5, [...ends.slice(0, -1), { from: 2, to: 4 }]);
    expect({ ...turned, sense: null }).toEqual({ ...before, sense: null });
    expect(turned.sense.at(-1)).toBe(-before.sense.at(-1)!);
  });
});

describe('a plan like that of the network before a change', () => {
  const large = loadSystem('heat-only-condensate-pump');
  /** Ends out of their terminals, which add nodes, and a path that should not be there. */
  const changed = changeNetwork(large, [
    { kind: 'parted', end: 'W3.BN@1' },
    { kind: 'parted', end: 'W5.GY@2' },
    { kind: 'join', from: 'E1.L', to: 'X1.2', ohms: 5 },
  ]);

  it('takes its order over, what is new first, and eliminates all that is joined', () => {
    const { topology } = changed;
    const added = changed.nodes.length - large.nodes.length;
    expect(added).toBe(2);
    expect([...topology.order.slice(0, added)].sort()).toEqual([
      large.nodes.length,
      large.nodes.length + 1,
    ]);
    expect([...topology.order.slice(added)]).toEqual([...large.topology.order]);
    // Each edge of a step is one of a branch, or joins two that an earlier step joined to its own.
    const { first, other } = topology;
    const edges = new Set<string>();
    for (const { from, to } of changed.branches)
      if (from !== REFERENCE && to !== REFERENCE)
        edges.add([topology.step[from]!, topology.step[to]!].toSorted((a, b) => a - b).join());
    for (let s = 0; s < changed.nodes.length; s++) {
      const own = [...edges].flatMap((edge) => {
        const [a, b] = edge.split(',').map(Number);
        return a === s ? b! : [];
      });
      own.sort((a, b) => a - b);
      expect([...other.slice(first[s], first[s + 1])], `step ${s}`).toEqual(own);
      for (const [i, a] of own.entries()) for (const b of own.slice(i + 1)) edges.add(`${a},${b}`);
    }
  });

  it('gives the voltages that one looked for anew gives', () => {
    const anew = withBranches(changed, changed.branches);
    expect([...anew.topology.order]).not.toEqual([...changed.topology.order]);
    for (const mode of Object.keys(large.system.modes)) {
      const [one, other] = [changed, anew].map((network) => simulate(network).modes.get(mode)!);
      for (const { index } of changed.nodes) {
        const [a, b] = [one!, other!].map(({ solution }) => voltage(solution.ac, index, REFERENCE));
        expect(a!.re).toBeCloseTo(b!.re, 6);
        expect(a!.im).toBeCloseTo(b!.im, 6);
      }
    }
  });
});

/** Nodes in a row from the reference, and one more branch. */
const chain = (count: number, more: { from: number; to: number }) => [
  ...Array.from({ length: count }, (_, i) => ({ from: i, to: i - 1 })),
  more,
];

describe('places of branches', () => {
  it('are the same however often they are asked', () => {
    const joined = changeNetwork(network, [{ kind: 'join', from: 'E1.L', to: 'E1.N', ohms: 5 }]);
    for (let asked = 0; asked < 6; asked++) {
      const places = joined.branches.map(({ id }) => joined.branchIndex.get(id));
      expect(places).toEqual([...joined.branches.keys()]);
      expect(joined.branchIndex.get('W99.BN')).toBeUndefined();
    }
    // Asked once each, before there is an index.
    const fresh = () =>
      changeNetwork(joined, [{ kind: 'join', from: 'E1.N', to: 'E1.E', ohms: 5 }]);
    expect(fresh().branchIndex.get('E1.N~E1.E')).toBe(joined.branches.length);
    expect(fresh().branchIndex.get(branches[0]!.id)).toBe(0);
    expect(fresh().branchIndex.get('W99.BN')).toBeUndefined();
  });
});
