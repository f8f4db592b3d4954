import { describe, expect, it } from 'vitest';
import {
  buildNetwork,
  conditionsOf,
  factorise,
  gather,
  type Network,
  nodeOf,
  planElimination,
  REFERENCE,
  settleMode,
  simulate,
} from '../../src/circuit/index.ts';
import { circuit } from '../support/notation.ts';

const SMALL = circuit(`
  B1 contact: contact COM NO { closed: { all: [calling, fitted] } }
  mode on: B1.calling`);

const withSystem = (change: Partial<Network['system']>) => () =>
  buildNetwork('other', { ...SMALL.system, ...change }, new Map());

describe('what the engine says of names that are not there', () => {
  it('a point of an item', () => {
    expect(() => nodeOf(SMALL, 'B1.NC')).toThrow(
      new RangeError('test-circuit has no point B1.NC; B1 has B1.COM, B1.NO'),
    );
  });

  it('a point of no item', () => {
    expect(() => nodeOf(SMALL, 'B2.COM')).toThrow(
      new RangeError('test-circuit has no point B2.COM; no such item either'),
    );
  });

  it('a condition', () => {
    expect(() => conditionsOf(SMALL, { 'B1.cold': true })).toThrow(
      new RangeError('test-circuit has no condition B1.cold; it has B1.calling, B1.fitted'),
    );
    expect(() => settleMode(SMALL, 'x', { 'B1.cold': true })).toThrow('no condition B1.cold');
  });

  it('a mode to come after', () => {
    const lost = {
      ...SMALL,
      system: { ...SMALL.system, modes: { on: { ...SMALL.system.modes.on!, after: 'off' } } },
    };
    expect(() => simulate(lost)).toThrow(new RangeError('test-circuit has no mode off; it has on'));
    const two = { ...lost.system, modes: { ...lost.system.modes, hot: SMALL.system.modes.on! } };
    expect(() => simulate({ ...lost, system: two })).toThrow(
      new RangeError('test-circuit has no mode off; it has on, hot'),
    );
  });

  it('a device', () => {
    expect(withSystem({})).toThrow(new RangeError('other: B1 is a b1, which is no device'));
  });

  it('a terminal of a link', () => {
    expect(
      withSystem({ items: {}, links: [{ between: ['B1.COM', 'B1.NO'], why: undefined }] }),
    ).toThrow(new RangeError('other has no terminal B1.COM'));
  });
});

describe('what the solver says of a network it cannot solve', () => {
  it('an end that is no node, or both ends the same', () => {
    const said = (a: number, b: number) =>
      new RangeError(
        `a branch needs two different ends among 0..1 or REFERENCE; got ${a} and ${b}`,
      );
    for (const [a, b] of [
      [0, 2],
      [1, 1],
      [-2, 0],
      [0.5, 1],
      [REFERENCE, REFERENCE],
    ] as const) {
      expect(() => planElimination(2, [{ from: a, to: b }])).toThrow(said(a, b));
    }
  });

  it('a node that nothing ties to the reference', () => {
    const topology = planElimination(3, [
      { from: 0, to: REFERENCE },
      { from: 1, to: 2 },
    ]);
    const slots = gather(topology, Float64Array.of(1, 1), Float64Array.of(0, 0));
    expect(() => factorise(topology, slots)).toThrow(
      /^node \d has no path to the reference: give every node a leakage branch$/,
    );
  });

  it('admittances that are no numbers', () => {
    const topology = planElimination(1, [{ from: 0, to: REFERENCE }]);
    const slots = gather(topology, Float64Array.of(Number.NaN), Float64Array.of(0));
    expect(() => factorise(topology, slots)).toThrow('node 0 has no path to the reference');
  });
});

describe('the notation of test circuits', () => {
  it('quotes a line it cannot read', () => {
    expect(() => circuit('B1 contact contact COM NO')).toThrow(
      'a test circuit has no such statement: B1 contact contact COM NO',
    );
  });

  it('holds what it builds to the schema', () => {
    expect(() => circuit('B1 load: load L N { wats: 5 }')).toThrow('wats');
  });

  it('builds items, cores with their earth’s size, spares, links, modes', () => {
    const network = circuit(`
      # a comment
      F1 mains: supply L N E            # and another
      W1: twin and earth 2.5/1.5 10; BN F1.L X1.1; GNYE F1.E X1.2; spare BU
      link X1.1 X1.3
      mode first: X1.a
      mode second after first: not X1.a
      X1 c: contact 3 4 { closed: a }`);
    expect(network.nodes.map(({ id }) => id)).toEqual([
      'F1.L',
      'F1.N',
      'F1.E',
      'X1.1',
      'X1.2',
      'X1.3',
      'X1.4',
      'W1.BU@1',
      'W1.BU@2',
    ]);
    const ohms = (id: string) => {
      const branch = network.branches[network.branchIndex.get(id)!]!;
      return branch.kind === 'conductor' ? branch.ohms : Number.NaN;
    };
    // IEC 60228 class 1: 7.41 and 12.1 Ω/km.
    expect(ohms('W1.BN')).toBeCloseTo(0.0741, 9);
    expect(ohms('W1.GNYE')).toBeCloseTo(0.121, 9);
    expect(network.system.modes.second).toMatchObject({
      after: 'first',
      conditions: { 'X1.a': false },
    });
  });
});
