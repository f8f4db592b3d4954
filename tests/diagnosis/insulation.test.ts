import { describe, expect, it } from 'vitest';
import { changeNetwork, simulateAsFound } from '../../src/circuit/index.ts';
import { joinedToEarthOhms } from '../../src/diagnosis/tests/act-answer.ts';
import { answerIn, type Test } from '../../src/diagnosis/tests/index.ts';
import { shipped } from '../support/signatures.ts';

const { simulation, signatures } = shipped('heat-only-two-port');
const { network } = simulation;

const testOf = (id: string): Test => {
  const test = signatures.tests.find((one) => one.id === id);
  if (!test) throw new RangeError(`no test ${id}`);
  return test;
};
/** What a test answers with a path of some ohms between two terminals. */
const withPath = (id: string, from: string, to: string, ohms: number) =>
  answerIn(simulateAsFound(changeNetwork(network, [{ kind: 'join', from, to, ohms }])), testOf(id));

// A delta of 20, 30 and 50 Ω is a star of 10, 6 and 15 Ω: the example of Kennelly's transform that
// textbooks of electrical principles work (from memory).
it('joins two of three points as the star between them says', () => {
  const between = { ab: 16, bc: 21, ca: 25 };
  const ohms = (from: string, to: string) =>
    between[`${from}${to}` as 'ab'] ?? between[`${to}${from}` as 'ab'];
  expect(joinedToEarthOhms(ohms, ['a', 'b', 'c'])).toBeCloseTo(15 + (10 * 6) / 16, 12);
  expect(joinedToEarthOhms(ohms, ['a', 'b', 'c'])).toBeCloseTo((30 * 50) / 80, 12);
});

describe('an insulation test', () => {
  // BS 7671 Table 64 and 643.3.3: at least 1 MΩ, at 250 V DC with equipment connected.
  it.each([
    [0.05, 'resistance'],
    [50e3, 'resistance'],
    [0.98e6, 'resistance'],
    [1.02e6, 'open'],
  ])('answers %s Ω to earth with %s', (ohms, answer) => {
    expect(withPath('insulation:E1.L|E1.N', 'E1.L', 'E1.E', ohms)).toBe(answer);
    expect(withPath('insulation:E1.L|E1.N', 'E1.N', 'E1.E', ohms)).toBe(answer);
  });

  it('holds in a sound system, and sees nothing between a live and its neutral, which are joined', () => {
    const all = signatures.tests.filter((test) => test.kind === 'act' && test.act === 'insulation');
    expect(all.length).toBeGreaterThan(10);
    for (const test of all) expect(answerIn(simulation, test)).toBe('open');
    expect(withPath('insulation:E1.L|E1.N', 'E1.L', 'E1.N', 0.05)).toBe('open');
  });

  it('of a lead sees what it feeds and nothing beside it', () => {
    const [cable] = Object.entries(network.system.cables).find(([, { cores }]) =>
      Object.values(cores).some(({ ends }) => ends.some((point) => point === 'M1.L')),
    )!;
    const lead = testOf(`insulation:${cable}`);
    const damp = (from: string, to: string) =>
      answerIn(
        simulateAsFound(changeNetwork(network, [{ kind: 'join', from, to, ohms: 50e3 }])),
        lead,
      );
    expect(damp('M1.L', 'M1.E')).toBe('resistance');
    expect(damp('E1.L', 'E1.E')).toBe('open');
  });
});

describe('ohms to earth', () => {
  it.each([
    [0.05, 'joined'],
    [800, 'no short'],
    [50e3, 'no short'],
  ])('tell a short, and of %s Ω no more than that', (ohms, answer) => {
    expect(withPath('dead:E1.N|E1.E', 'E1.N', 'E1.E', ohms)).toBe(answer);
    expect(withPath('dead:E1.L|E1.E', 'E1.L', 'E1.E', ohms)).toBe(answer);
  });
});

it.each(['combi-volt-free', 'combi-wireless-condensate-pump', 'heat-only-condensate-pump'])(
  '%s: none is put on an extra-low-voltage pair',
  (id) => {
    const { simulation: own, signatures: all } = shipped(id);
    const points = all.tests.flatMap((test) =>
      test.kind === 'act' && test.act === 'insulation' ? test.points : [],
    );
    expect(points.length).toBeGreaterThan(0);
    const low = own.network.nodes.flatMap(({ id: node, terminal }) =>
      terminal && (terminal.carries === 'call' || terminal.voltage === 'extra-low') ? node : [],
    );
    expect(points.filter((point) => low.includes(point))).toEqual([]);
  },
);
