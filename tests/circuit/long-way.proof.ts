import { describe, expect, it } from 'vitest';
import {
  alter,
  type Branch,
  buildNetwork,
  burden,
  type Change,
  type Complex,
  changeNetwork,
  complex,
  isLooseEnd,
  magnitude,
  type Network,
  nodeOf,
  presenceOf,
  type Simulation,
  type Solution,
  type State,
  simulate,
  simulateAsFound,
  voltage,
} from '../../src/circuit/index.ts';
import { type Fault, faultsOf, instrumentFor } from '../../src/diagnosis/index.ts';
import { coreEnds, looseCoreEnd, testPairs } from '../../src/wiring/index.ts';
import { shippedNetworks } from '../support/content.ts';
import { type LongSolution, settleAllModes, settleLongWay } from '../support/long-way/settle.ts';
import { property } from '../support/property.ts';
import type { Random } from '../support/random.ts';

/** Largest difference of a reading, as a share of it, and volts or ohms below which it is none. */
const RELATIVE = 1e-9;
const FLOOR = 1e-11;

/** The circuit of a fault built from nothing: every cable, node, branch and plan of its own. */
function builtAnew({ id, system, items }: Network, { rewire, changes }: Fault['edit']): Network {
  const devices = new Map([...items.values()].map((item) => [item.deviceId, item.device]));
  return changeNetwork(buildNetwork(id, rewire?.(system) ?? system, devices), changes);
}

const plain = ({ energised, held, blown, positions }: State) =>
  [energised, held, blown, positions].map((values) => [...values].map(String).sort());

const near = (a: number, b: number) => Math.abs(a - b) <= Math.max(FLOOR, RELATIVE * Math.abs(b));

/** Pairs that do not read alike in two networks solved, in words; none where all do. */
function unlike(network: Network, ours: Solution, other: Network, long: LongSolution): string[] {
  return testPairs(network).flatMap((pair) => {
    const { from, to } = pair;
    const [a, b] = [from, to].map((id) => nodeOf(ours.network, id).index) as [number, number];
    const [c, d] = [from, to].map((id) => nodeOf(other, id).index) as [number, number];
    return (['ac', 'dc'] as const).flatMap((kind) => {
      const own = burden(instrumentFor(pair), ours[kind].hertz);
      const z = ours[kind].impedance(a, b);
      const longZ = long.impedance(kind, c, d);
      const shown = (volts: Complex, { re, im }: Complex) =>
        (magnitude(own) * magnitude(volts)) / magnitude(complex(own.re + re, own.im + im));
      const same =
        near(shown(voltage(ours[kind], a, b), z), shown(long.voltage(kind, c, d), longZ)) &&
        near(magnitude(z), magnitude(longZ));
      return same ? [] : [`${from} to ${to}, ${kind}`];
    });
  });
}

const isSameRound = (ours: readonly State[], long: readonly State[]) =>
  JSON.stringify(ours.map(plain)) === JSON.stringify(long.map(plain));

/** What differs between the two ways with a fault, in words; nothing where they agree. */
function differences(network: Network, fault: Fault): string[] {
  const found: Simulation = simulateAsFound(fault.circuit());
  const other = builtAnew(network, fault.edit);
  const modes = settleAllModes(other);
  return [...found.modes].flatMap(([mode, { round, solution }]) => {
    const long = modes.get(mode)!;
    const place = `${fault.id}, ${mode}`;
    if (!isSameRound(round, long.round)) return [`${place}: another rest`];
    return unlike(network, solution, other, long.solution).map((pair) => `${place}, ${pair}`);
  });
}

const faultsIn = new WeakMap<Network, readonly Fault[]>();
function allFaults(network: Network): readonly Fault[] {
  const faults = faultsIn.get(network) ?? faultsOf(simulate(network));
  faultsIn.set(network, faults);
  return faults;
}

describe.each([...shippedNetworks()])('%s', (_, network) => {
  it('rests and reads with every fault as the circuit built anew does the long way', () => {
    const faults = allFaults(network);
    expect(faults.length).toBeGreaterThan(50);
    for (const fault of faults) expect(differences(network, fault)).toEqual([]);
  });

  property('rests and reads the same when something is done to it as it stands', 25, (from) => {
    const fault = from.pick(allFaults(network));
    const settled = from.pick([...simulateAsFound(fault.circuit()).modes.values()]);
    const whole = builtAnew(network, fault.edit);
    const done = from.next() < 0.5 ? takenOff(whole, from) : parted(whole, from);
    const { changes, given, other } = done;
    const altered = alter(settled, changes, given);
    const conditions = new Map([...settled.state.conditions, ...Object.entries(given)]);
    const long = settleLongWay(other, conditions, settled.state);
    const place = `${fault.id}, ${settled.mode}, ${JSON.stringify(changes)}`;
    expect([place, altered.round.map(plain)]).toEqual([place, long.round.map(plain)]);
    expect([place, unlike(network, altered.solution, other, long.solution)]).toEqual([place, []]);
  });
});

interface Done {
  readonly changes: readonly Change[];
  readonly given: Readonly<Record<string, boolean>>;
  /** The network in which that is so from the beginning. */
  readonly other: Network;
}

/** A device off its base, where there is one that comes off; its elements then conduct nothing. */
function takenOff(network: Network, from: Random): Done {
  const named = [...network.items].flatMap(([item, { device }]) => presenceOf(device, item) ?? []);
  if (named.length === 0) return parted(network, from);
  return { changes: [], given: { [from.pick(named)]: false }, other: network };
}

/** A core end out of its terminal; the system built so, with what was changed changed after. */
function parted(network: Network, from: Random): Done {
  const at = from.pick(coreEnds(network.system).filter(({ point }) => !isLooseEnd(point)));
  const end = `${at.cable}.${at.colour}@${at.end + 1}`;
  const { id, items } = network;
  const devices = new Map([...items.values()].map((item) => [item.deviceId, item.device]));
  const built = buildNetwork(id, looseCoreEnd(network.system, at), devices);
  const changed = new Map(
    network.branches.flatMap((b) => (b.kind === 'faulty' ? [[b.id, b.ohms] as const] : [])),
  );
  const branches = built.branches.map((branch): Branch => {
    const before = network.branches[network.branchIndex.get(branch.id) ?? -1];
    if (branch.kind === 'element')
      return before ? { ...before, from: branch.from, to: branch.to } : branch;
    if (branch.kind === 'conductor' && before?.kind === 'conductor')
      return before.seriesOhms === undefined
        ? branch
        : { ...branch, seriesOhms: before.seriesOhms };
    const ohms = changed.get(branch.id);
    if (ohms === undefined || (branch.kind !== 'conductor' && branch.kind !== 'wire link'))
      return branch;
    return { kind: 'faulty', id: branch.id, from: branch.from, to: branch.to, ohms, was: branch };
  });
  const paths = network.branches.flatMap((b) =>
    b.kind === 'strange path'
      ? [
          {
            ...b,
            from: nodeOf(built, network.nodes[b.from]!.id).index,
            to: nodeOf(built, network.nodes[b.to]!.id).index,
          },
        ]
      : [],
  );
  const { stuck, set } = network;
  const other = { ...built, branches: [...branches, ...paths], stuck, set };
  return { changes: [{ kind: 'parted', end }], given: {}, other };
}
