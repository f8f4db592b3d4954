import { describe, expect, it } from 'vitest';
import type { Device, System } from '../../schemas/index.ts';
import {
  admittance,
  buildNetwork,
  type Network,
  type Parts,
  partsOf,
  read,
  settleMode,
} from '../../src/circuit/index.ts';
import { circuit } from '../support/notation.ts';

const METER = { ohms: 10e6, farads: 0 };
const branchOf = (network: Network, id: string) => network.branches[network.branchIndex.get(id)!];

/** The system and devices of a test circuit, to be changed and built again. */
function partsOfEntry(text: string): { system: System; devices: Map<string, Device> } {
  const { system, items } = circuit(text);
  const devices = [...items.values()].map(({ deviceId, device }) => [deviceId, device] as const);
  return { system, devices: new Map(devices) };
}

describe('an item', () => {
  const { system, devices } = partsOfEntry(`
    Q1 fuse: fuse L out { rating: 3 }
    Q1 breaker: breaker L other { rating: 6 }
    Q1 lamp: load out N { watts: 5 }`);
  const item = system.items.Q1!;
  const built = (change: Partial<typeof item>) =>
    buildNetwork('made', { ...system, items: { Q1: { ...item, ...change } } }, devices);

  it('bears its own title, else its device’s', () => {
    expect(built({}).items.get('Q1')!.title).toBe('Q1');
    expect(built({ title: 'Spur' }).items.get('Q1')!.title).toBe('Spur');
    expect(built({})).toMatchObject({ id: 'made', stuck: new Map() });
  });

  it('has its own ratings, and only of what it rates', () => {
    const network = built({ ratings: { fuse: 5, breaker: 16 } });
    expect(branchOf(network, 'Q1/fuse')).toMatchObject({ element: { kind: 'fuse', rating: 5 } });
    expect(branchOf(network, 'Q1/breaker')).toMatchObject({
      element: { kind: 'breaker', rating: 16 },
    });
    expect(branchOf(network, 'Q1/lamp')).toMatchObject({ element: { kind: 'load', watts: 5 } });
    expect(network.items.get('Q1')!.device).toMatchObject({
      title: 'Q1',
      terminals: devices.get('q1')!.terminals,
      elements: { fuse: { rating: 5 }, lamp: { kind: 'load' } },
    });
    expect(branchOf(built({}), 'Q1/fuse')).toMatchObject({ element: { rating: 3 } });
  });

  it('takes no rating for what is neither fuse nor breaker, nor for what it has not', () => {
    const network = built({ ratings: { lamp: 9, heater: 13 } });
    expect(network.items.get('Q1')!.device.elements).toEqual(devices.get('q1')!.elements);
  });

  it('has points inside that no probe reaches', () => {
    const inside = new Map([['q1', { ...devices.get('q1')!, nodes: ['board'] }]]);
    const { nodes } = buildNetwork('made', system, inside);
    expect(nodes.at(-1)).toEqual({ index: 4, id: 'Q1#board', item: 'Q1', name: 'board' });
    const joined = new Map<string, Device>([
      [
        'q1',
        {
          ...devices.get('q1')!,
          nodes: ['board'],
          elements: { way: { kind: 'link', between: ['L', 'board'] } },
        },
      ],
    ]);
    expect(branchOf(buildNetwork('made', system, joined), 'Q1/way')).toMatchObject({
      from: 0,
      to: 4,
    });
  });
});

describe('what joins items', () => {
  const made = () =>
    circuit(`
    F1 mains: supply L N E
    A1 lamp: load L N { watts: 5 }
    W1: flex 0.75 10; BN F1.L A1.L; BU F1.N A1.N BN; spare GY
    link A1.L A1.spur
    link A1.N A1.loop`);

  it('is a core with its sleeve where it has one', () => {
    const network = made();
    // IEC 60228 class 5, 0.75 mm²: 26.0 Ω/km.
    expect(branchOf(network, 'W1.BU')).toEqual({
      kind: 'conductor',
      id: 'W1.BU',
      from: network.nodeIndex.get('F1.N'),
      to: network.nodeIndex.get('A1.N'),
      cable: 'W1',
      colour: 'BU',
      ohms: 0.26,
      sleeve: 'BN',
    });
    expect(branchOf(network, 'W1.BN')).not.toHaveProperty('sleeve');
  });

  it('is a wire link, numbered from 1, with its reason where it has one', () => {
    const network = made();
    const link = { kind: 'wire link', item: 'A1', ohms: 0.005 };
    expect(branchOf(network, 'link 1')).toMatchObject({
      ...link,
      from: network.nodeIndex.get('A1.L'),
      to: network.nodeIndex.get('A1.spur'),
    });
    expect(branchOf(network, 'link 2')).toMatchObject({
      ...link,
      to: network.nodeIndex.get('A1.loop'),
    });
    expect(branchOf(network, 'link 1')).not.toHaveProperty('why');
    const { system, devices } = partsOfEntry('A1 lamp: load L N { watts: 5 }');
    const why = buildNetwork(
      'made',
      { ...system, links: [{ between: ['A1.L', 'A1.N'], why: 'as delivered' }] },
      devices,
    );
    expect(branchOf(why, 'link 1')).toMatchObject({ why: 'as delivered' });
  });

  it('leaves a spare core’s ends, and loose ends, joined to nothing', () => {
    const network = made();
    expect(network.nodes.filter(({ item }) => item === undefined)).toEqual([
      { index: expect.any(Number), id: 'W1.GY@1', name: 'GY' },
      { index: expect.any(Number), id: 'W1.GY@2', name: 'GY' },
    ]);
    const { system, devices } = partsOfEntry('A1 lamp: load L N { watts: 5 }');
    const cable = { ...network.system.cables.W1!, spare: [] };
    const loose = buildNetwork(
      'made',
      {
        ...system,
        cables: { W1: { ...cable, cores: { BN: { ends: ['A1.L', 'W1.BN@2'] } } } },
      },
      devices,
    );
    expect(loose.nodes.at(-1)).toEqual({ index: 2, id: 'W1.BN@2', name: 'BN@2' });
    expect(branchOf(loose, 'W1.BN')).toMatchObject({ from: 0, to: 2 });
    expect(() =>
      buildNetwork(
        'made',
        { ...system, cables: { W1: { ...cable, cores: { BN: { ends: ['A1.L', 'A1.X'] } } } } },
        devices,
      ),
    ).toThrow(new RangeError('made has no terminal A1.X'));
  });

  it('has strays between each two cores at each end, and none where two share a terminal', () => {
    const network = made();
    const strays = ({ branches }: Network) =>
      branches.flatMap(({ kind, id }) => (kind === 'stray' && !/insul|surr/.test(id) ? [id] : []));
    expect(strays(network)).toEqual([
      'W1.BN-BU 1',
      'W1.BN-BU 2',
      'W1.BN-GY 1',
      'W1.BN-GY 2',
      'W1.BU-GY 1',
      'W1.BU-GY 2',
    ]);
    const shared = circuit(`
      A1 lamp: load L N { watts: 5 }
      W1: flex 0.75 10; BN A1.L B1.L; GY A1.L B1.SL`);
    expect(strays(shared)).toEqual(['W1.BN-GY 2']);
  });

  it('leaks at every point through its insulation: 100 GΩ to earth', () => {
    const network = made();
    const leaks = network.branches.filter(({ id }) => id.endsWith(' insulation'));
    expect(leaks.map(({ id }) => id)).toEqual(network.nodes.map(({ id }) => `${id} insulation`));
    for (const [i, leak] of leaks.entries()) {
      expect(leak).toMatchObject({ kind: 'stray', from: i, to: -1, farads: 0, siemens: 1e-11 });
    }
  });
});

describe('the supply’s earthing', () => {
  // 46 Ω on line and neutral, 5 A: what of the neutral's drop stands between neutral and earth.
  const loaded = (earthing: string) => {
    const network = circuit(`
      F1 mains: supply L N E { earthing: ${earthing} }
      F1 heater: load L N { watts: 1150 }`);
    const { solution } = settleMode(network, 'on', {});
    return { network, volts: read(solution, 'F1.N', 'F1.E', METER).ac };
  };

  it('TN-C-S ties neutral and earth at the origin', () => {
    const { network, volts } = loaded('TN-C-S');
    expect(volts).toBeLessThan(0.01);
    expect(network.branches.filter(({ kind }) => kind === 'supply').map(({ id }) => id)).toEqual([
      'F1/supply line',
      'F1/supply neutral',
      'F1/supply earth',
    ]);
  });

  it.each(['TN-S', 'TT'])('%s lets the neutral stand from earth by its own drop', (earthing) => {
    // 0.35 Ω of loop, half of it the neutral's: 230 V / 46.35 Ω through 0.175 Ω.
    const { network, volts } = loaded(earthing);
    expect(volts).toBeCloseTo((230 / 46.35) * 0.175, 3);
    expect(branchOf(network, 'F1/supply earth')).toMatchObject({ item: 'F1', volts: 0 });
  });
});

describe('what a branch is made of', () => {
  const network = circuit(`
    F1 mains: supply L N E
    A1 link: link a b
    A1 fuse: fuse a b { rating: 3 }
    A1 breaker: breaker a b { rating: 6 }
    A1 resistor: resistor a b { ohms: 470 }
    A1 input: sensing a b { ohms: 100000 }
    A1 cell: source a b { volts: 24, ohms: 100 }
    A1 fed: source a b { volts: 12, ohms: 50, poweredBy: lamp }
    A1 lamp: load a b { watts: 5 }`);
  const { state } = settleMode(network, 'on', {});
  const passive: Omit<Parts, 'ohms'> = { henries: 0, farads: 0, volts: 0, current: 'none' };

  // Resistances of joins: common practice, no source; small beside every load.
  it.each([
    ['A1/link', { ...passive, ohms: 0.005 }],
    ['A1/fuse', { ...passive, ohms: 0.05 }],
    ['A1/breaker', { ...passive, ohms: 0.01 }],
    ['A1/resistor', { ...passive, ohms: 470 }],
    ['A1/input', { ...passive, ohms: 100000 }],
    ['A1/cell', { ...passive, ohms: 100, volts: 24, current: 'dc' }],
    ['A1/fed', { ...passive, ohms: 50, volts: 0, current: 'dc' }],
    ['F1/supply line', { ...passive, ohms: 0.175, volts: 230, current: 'ac' }],
    ['A1.a insulation', { ...passive, ohms: 1e11 }],
  ])('%s', (id, parts) => {
    const made = partsOf(branchOf(network, id)!, state, 50);
    expect({ ...made, ohms: Number(made.ohms.toPrecision(12)) }).toEqual(parts);
  });

  it('is a gap once it has blown', () => {
    const blown = { ...state, blown: new Set(['A1/fuse', 'A1/breaker']) };
    for (const id of blown.blown) {
      expect(partsOf(branchOf(network, id)!, blown, 50)).toEqual({ ...passive, ohms: 1e9 });
    }
  });

  it('lets through what its resistance, inductance and capacitance do', () => {
    const omega = 2 * Math.PI * 50;
    const y = (parts: Partial<Parts>) => admittance({ ...passive, ohms: 0, ...parts }, 50);
    // Y = 1/(R + jωL) + jωC.
    expect(y({ ohms: 30, henries: 40 / omega }).re).toBeCloseTo(30 / 2500, 12);
    expect(y({ ohms: 30, henries: 40 / omega }).im).toBeCloseTo(-40 / 2500, 12);
    expect(y({ ohms: Number.POSITIVE_INFINITY, farads: 1e-6 })).toEqual({
      re: 0,
      im: omega * 1e-6,
    });
    expect(y({ ohms: 50, farads: 1e-6 }).im).toBeCloseTo(omega * 1e-6, 15);
  });
});
