import { describe, expect, it } from 'vitest';
import {
  buildNetwork,
  burden,
  type Complex,
  changeNetwork,
  complex,
  magnitude,
  type Network,
  nodeOf,
  type Simulation,
  type State,
  simulate,
  simulateAsFound,
  voltage,
} from '../../src/circuit/index.ts';
import { type Fault, faultsOf, SEQUENCE_INSTRUMENT } from '../../src/diagnosis/index.ts';
import { testPairs } from '../../src/wiring/index.ts';
import { shippedNetworks } from '../support/content.ts';
import { settleAllModes } from '../support/long-way/settle.ts';

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

const product = (a: Complex, b: Complex) =>
  complex(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re);

/** What differs between the two ways, in words; nothing where they agree. */
function differences(network: Network, fault: Fault): string[] {
  const found: Simulation = simulateAsFound(fault.circuit());
  const other = builtAnew(network, fault.edit);
  const modes = settleAllModes(other);
  return [...found.modes].flatMap(([mode, { round, solution }]) => {
    const long = modes.get(mode)!;
    if (JSON.stringify(round.map(plain)) !== JSON.stringify(long.round.map(plain))) {
      return [`${fault.id}, ${mode}: another rest`];
    }
    return testPairs(network).flatMap(({ from, to }) => {
      const ours = [from, to].map((id) => nodeOf(solution.network, id).index);
      const theirs = [from, to].map((id) => nodeOf(other, id).index);
      return (['ac', 'dc'] as const).flatMap((kind) => {
        const z = solution[kind].impedance(ours[0]!, ours[1]!);
        const longZ = long.solution.impedance(kind, theirs[0]!, theirs[1]!);
        const own = burden(SEQUENCE_INSTRUMENT, solution[kind].hertz);
        const volts = [
          voltage(solution[kind], ours[0]!, ours[1]!),
          long.solution.voltage(kind, theirs[0]!, theirs[1]!),
        ];
        const shown = [z, longZ].map((each, i) => {
          const whole = complex(own.re + each.re, own.im + each.im);
          return magnitude(product(own, volts[i]!)) / magnitude(whole);
        });
        const same = near(shown[0]!, shown[1]!) && near(magnitude(z), magnitude(longZ));
        return same ? [] : [`${fault.id}, ${mode}, ${from} to ${to}, ${kind}`];
      });
    });
  });
}

describe.each([...shippedNetworks()])('%s', (_, network) => {
  it('rests and reads with every fault as the circuit built anew does the long way', () => {
    const faults = faultsOf(simulate(network));
    expect(faults.length).toBeGreaterThan(50);
    for (const fault of faults) expect(differences(network, fault)).toEqual([]);
  });
});
