import { beforeAll, describe, expect, it, vi } from 'vitest';
import {
  type Change,
  changeNetwork,
  INSTRUMENTS,
  impedanceBetween,
  magnitude,
  type Network,
  netlist,
  potential,
  read,
  type Settled,
  simulate,
} from '../../src/circuit/index.ts';
import { FLOOR, RELATIVE, spiceAt, worst } from '../support/beside-ngspice.ts';
import { shippedNetworks, systemFiles } from '../support/content.ts';
import { earthNode, withMeter } from '../support/networks.ts';
import { ngspice, startNgspice, withBranchCurrents } from '../support/ngspice.ts';
import { circuit } from '../support/notation.ts';
import { property } from '../support/property.ts';
import { refereePotentials } from '../support/referee.ts';
import { relativeError } from '../support/wide.ts';

/** ngspice's own loss of digits on a netlist as published; see withBranchCurrents. */
const AS_PUBLISHED = 1e-5;
/** What is left of sixteen digits after some hundred operations, for the referee. */
const REFEREE = 1e-12;

/** A volt-free call loop: a battery of low resistance that floats, with a spare core beside it. */
const FLOATING_LOOP = circuit(`
  F1 mains: supply L N E
  F1 fuse: fuse L out { rating: 3 }
  E1 board: load L N { watts: 8, powerFactor: 0.6 }
  E1 pair: source call plus { volts: 24, ohms: 0.1, poweredBy: board }
  E1 input: sensing plus back { ohms: 4700, ratedVolts: 24 }
  E1 lit: when { energised: input }
  B1 contact: contact a b { closed: calling }
  W1: flex 0.75 10; BN F1.out E1.L; BU F1.N E1.N; GNYE F1.E E1.E
  W2: flex 0.5 12; BN E1.call B1.a; BU E1.back B1.b; spare GY
  mode standby:
  mode calling: B1.calling
`);

const networks = new Map<string, Network>([...shippedNetworks(), ['floating loop', FLOATING_LOOP]]);
const cases = [...networks].flatMap(([id, network]) =>
  [...simulate(network).modes.values()].map((settled) => ({ id, settled, mode: settled.mode })),
);

const ANALYSIS = { ac: 'ac', dc: 'op' } as const;
const KINDS = ['ac', 'dc'] as const;

beforeAll(() => startNgspice());

describe('every shipped system is compared', () => {
  it('loads each system that content/ holds', () => {
    expect([...shippedNetworks().keys()].sort()).toEqual(systemFiles());
  });

  it('has at least eight systems', () => {
    expect(shippedNetworks().size).toBeGreaterThanOrEqual(8);
  });
});

describe.each(cases)('$id, $mode', ({ settled }) => {
  const { network } = settled.solution;

  it.each(KINDS)('agrees with ngspice at every node, %s', async (kind) => {
    const voltages = await ngspice(
      withBranchCurrents(netlist(network, settled.state, ANALYSIS[kind])),
    );
    const { share, node } = worst(
      network,
      (i) => potential(settled.solution[kind], i),
      (i) => spiceAt(voltages, network, i),
    );
    expect(share, `worst at ${node}`).toBeLessThan(1);
  });

  it('agrees with ngspice on the netlist as published, ac', async () => {
    const voltages = await ngspice(netlist(network, settled.state, 'ac'));
    const { share, node } = worst(
      network,
      (i) => potential(settled.solution.ac, i),
      (i) => spiceAt(voltages, network, i),
      AS_PUBLISHED,
    );
    expect(share, `worst at ${node}`).toBeLessThan(1);
  });

  it.each(KINDS)('agrees with 512-bit arithmetic at every node, %s', (kind) => {
    const exact = refereePotentials(settled.solution, kind);
    for (const { index, id } of network.nodes) {
      const error = relativeError(potential(settled.solution[kind], index), exact[index]!);
      expect(error, id).toBeLessThan(REFEREE);
    }
  });

  it('reads the most floating point as ngspice does with each instrument put in', async () => {
    const earth = earthNode(network);
    const point = mostFloating(settled, earth);
    for (const instrument of INSTRUMENTS) {
      const shown = read(settled.solution, point, network.nodes[earth]!.id, instrument);
      const node = network.nodeIndex.get(point)!;
      const metered = withMeter(network, node, earth, instrument);
      for (const kind of KINDS) {
        if (settled.solution[kind].potentials() === null) continue;
        const voltages = await ngspice(
          withBranchCurrents(netlist(metered, settled.state, ANALYSIS[kind])),
        );
        const a = spiceAt(voltages, network, node);
        const b = spiceAt(voltages, network, earth);
        const theirs = kind === 'ac' ? Math.hypot(a.re - b.re, a.im - b.im) : a.re - b.re;
        const allowed = Math.max(RELATIVE * Math.abs(theirs), FLOOR);
        expect(Math.abs(shown[kind] - theirs), `${point}, ${instrument.id}`).toBeLessThan(allowed);
      }
    }
  });
});

/** The probe point with the greatest impedance to earth: a core that floats, if there is one. */
function mostFloating({ solution }: Settled, earth: number): string {
  const { nodes } = solution.network;
  const impedances = nodes.map(({ index }) =>
    index === earth ? 0 : magnitude(impedanceBetween(solution.ac, index, earth)),
  );
  return nodes[impedances.indexOf(Math.max(...impedances))]!.id;
}

describe.each([...shippedNetworks()])('%s changed', (id, network) => {
  property('agrees with a core off or two points joined', 4, async (from) => {
    const cores = network.branches.filter(({ kind }) => kind === 'conductor');
    const [a, b] = [from.pick(network.nodes), from.pick(network.nodes)];
    const change: Change =
      from.next() < 0.5 || a === b
        ? { kind: 'open', branch: from.pick(cores).id }
        : { kind: 'join', from: a.id, to: b.id, ohms: from.spread(0.01, 1e6) };
    const changed = changeNetwork(network, [change]);
    const settled = from.pick([...simulate(changed).modes.values()]);
    const voltages = await ngspice(withBranchCurrents(netlist(changed, settled.state, 'ac')));
    const { share, node } = worst(
      changed,
      (n) => potential(settled.solution.ac, n),
      (n) => spiceAt(voltages, changed, n),
    );
    const place = `${id}, ${settled.mode}, ${JSON.stringify(change)}, at ${node}`;
    expect(share, place).toBeLessThan(1);
  });
});

describe('a netlist that ngspice cannot take', () => {
  it('is an error, not the answer of the circuit before', async () => {
    vi.spyOn(console, 'error').mockReturnValue();
    await ngspice('V1 a 0 DC 1\nR1 a 0 1\n.op\n.end');
    await expect(ngspice('V1 a 0 DC 1\nR1 a\nX1 q\n.op\n.end')).rejects.toThrow('ngspice');
  });
});
