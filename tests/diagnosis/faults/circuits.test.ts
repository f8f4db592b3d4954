import { beforeAll, describe, expect, it } from 'vitest';
import {
  branchCurrent,
  changeNetwork,
  effectiveAmps,
  effectiveVolts,
  magnitude,
  type Network,
  netlist,
  nodeOf,
  partsOf,
  potential,
  resistanceBetween,
  settleMode,
  simulate,
  simulateAsFound,
} from '../../../src/circuit/index.ts';
import { type Fault, faultsOf } from '../../../src/diagnosis/faults/index.ts';
import { ngspice, startNgspice, withBranchCurrents } from '../../support/ngspice.ts';
import { circuit } from '../../support/notation.ts';
import { loadSystem } from '../../systems/load.ts';

const known = new Map<string, readonly [Network, readonly Fault[]]>();

function faultsIn(system: string): readonly [Network, readonly Fault[]] {
  const network = loadSystem(system);
  const made = known.get(system) ?? ([network, faultsOf(simulate(network))] as const);
  known.set(system, made);
  return made;
}

function faultNamed(system: string, id: string): Fault {
  const fault = faultsIn(system)[1].find((one) => one.id === id);
  if (!fault) throw new RangeError(`${system} has no fault ${id}`);
  return fault;
}

/** Seen in a mode with a fault of a shipped system. */
const seen = (system: string, id: string, mode: string, outcome: string) =>
  simulate(faultNamed(system, id).circuit()).modes.get(mode)!.outcomes.get(outcome);

describe('a burnt joint, against Ohm’s law', () => {
  /** One load behind one core, its joint burnt; the supply's own loop is in the sums. */
  const loaded = (ohms: number, joint: number) => {
    const sound = circuit(`
      F1 mains: supply L N E
      P1 element: resistor L N { ohms: ${ohms} }
      W1: flex 1.5 1; BN F1.L P1.L; BU F1.N P1.N
      mode on:`);
    const burnt = changeNetwork(sound, [{ kind: 'series', branch: 'W1.BN', ohms: joint }]);
    const { solution } = simulate(burnt).modes.get('on')!;
    const at = burnt.branchIndex.get('W1.BN')!;
    const amps = effectiveAmps(solution, at);
    return { amps, volts: effectiveVolts(solution, at), watts: amps ** 2 * joint };
  };

  it('100 Ω takes 30 V and makes 9 W where 0.3 A flow', () => {
    const { amps, volts, watts } = loaded(230 / 0.3 - 100, 100);
    expect(amps).toBeCloseTo(0.3, 3);
    expect(Math.abs(volts / 30 - 1)).toBeLessThan(0.01);
    expect(Math.abs(watts / 9 - 1)).toBeLessThan(0.01);
  });

  it('1 Ω makes 156 W where 12.5 A flow', () => {
    // 0.35 Ω: the external loop of TN-C-S, BS 7671 (from memory).
    const { watts } = loaded(230 / 12.5 - 1 - 0.35, 1);
    expect(Math.abs(watts / 156.25 - 1)).toBeLessThan(0.01);
  });

  it('shows full volts with no load behind it', () => {
    const sound = circuit(`
      F1 mains: supply L N E
      P1 element: resistor L N { ohms: 1e7 }
      W1: flex 1.5 1; BN F1.L P1.L; BU F1.N P1.N
      mode on:`);
    const burnt = changeNetwork(sound, [{ kind: 'series', branch: 'W1.BN', ohms: 100 }]);
    const { solution } = simulate(burnt).modes.get('on')!;
    expect(effectiveVolts(solution, burnt.branchIndex.get('P1/element')!)).toBeGreaterThan(229.9);
  });

  it('burnt contacts open and close as sound ones do', () => {
    const [network] = faultsIn('heat-only-mid-position');
    const { circuit: build } = faultNamed('heat-only-mid-position', 'B1/contact:burnt');
    const burnt = simulate(build());
    const ohms = (mode: string) =>
      resistanceBetween(burnt.modes.get(mode)!.solution, 'B1.COM', 'B1.NO');
    expect(network.items.has('B1')).toBe(true);
    expect(ohms('heating')).toBeGreaterThan(99);
    expect(ohms('heating')).toBeLessThan(101);
    expect(ohms('standby')).toBeGreaterThan(1000);
  });

  it('two joints of one core add up, and a broken core has none', () => {
    const network = loadSystem('combi-two-wire');
    const joint = { kind: 'series', branch: 'W2.BN', ohms: 100 } as const;
    const twice = changeNetwork(network, [joint, joint]);
    const at = network.branchIndex.get('W2.BN')!;
    const { state } = settleMode(network, 'heating', {});
    const ohms = (of: Network) => partsOf(of.branches[at]!, state, 50).ohms;
    expect(ohms(twice) - ohms(network)).toBeCloseTo(200, 9);
    expect(() => changeNetwork(network, [{ kind: 'open', branch: 'W2.BN' }, joint])).toThrow(
      'combi-two-wire: W2.BN has no joint; an element, core or link has',
    );
  });
});

describe('an RCBO', () => {
  /** A house circuit behind an RCBO; what is added may trip it. */
  const house = (size: string, load: number) =>
    circuit(`
      F1 mains: supply busbar bar E
      F1 breaker: breaker busbar L { rating: 32, residual: { amps: 0.03, neutral: neutral } }
      F1 neutral: link bar N
      P1 element: resistor L N { ohms: ${load} }
      P1 earth: link E case
      W1: ${size}; BN F1.L P1.L; BU F1.N P1.N; GNYE F1.E P1.E
      mode on:`);
  const trips = (network: Network) =>
    simulate(network).modes.get('on')!.state.blown.has('F1/breaker');

  // 230 V over the rated residual current of 30 mA: 7.67 kΩ (derived). Up to half of it,
  // 15.3 kΩ, one device trips and another does not; the engine's trips at all of it.
  it.each([
    [5_000, true],
    [7_500, true],
    [7_900, false],
    [16_000, false],
    [50_000, false],
  ])('a leak of %i Ω from line to earth: trips %s', (ohms, expected) => {
    const leaking = changeNetwork(house('twin and earth 2.5/1.5 10', 1e6), [
      { kind: 'join', from: 'P1.L', to: 'P1.E', ohms },
    ]);
    expect(trips(leaking)).toBe(expected);
  });

  // Share that goes home by the earth, Rn / (Rn + Rp), load at the contact (derived; core
  // resistances of EN 60228): 1.0/1.0 mm² 0.500, 1.5/1.0 0.401, 2.5/1.5 0.380.
  it.each([
    ['twin and earth 1/1 50', 0.5],
    ['twin and earth 1.5/1 50', 0.401],
    ['twin and earth 2.5/1.5 50', 0.38],
  ])('neutral touching earth at the load, %s: diverts %d of its current', (size, share) => {
    const sound = house(size, 4_600);
    const touching = changeNetwork(sound, [{ kind: 'join', from: 'P1.N', to: 'P1.E', ohms: 1e-4 }]);
    const { solution } = simulate(touching).modes.get('on')!;
    const amps = (id: string) =>
      magnitude(branchCurrent(solution, touching.branchIndex.get(id)!, 'ac'));
    expect(Math.abs(amps('W1.GNYE') / amps('P1/element') / share - 1)).toBeLessThan(0.01);
  });

  // A share of 0.380 trips 30 mA from 79 mA on and not below 39 mA (derived).
  it.each([
    [0.085, true],
    [0.035, false],
  ])('with neutral touching earth, %d A of load: trips %s', (amps, expected) => {
    const network = house('twin and earth 2.5/1.5 50', 230 / amps);
    const touching = changeNetwork(network, [
      { kind: 'join', from: 'P1.N', to: 'P1.E', ohms: 1e-4 },
    ]);
    expect(trips(touching)).toBe(expected);
    expect(trips(network)).toBe(false);
  });

  it('of a shipped system trips on heating, not with the spur off, and is then found tripped', () => {
    const fault = faultNamed('heat-only-mid-position', 'X1:neutral to earth');
    const { modes } = simulate(fault.circuit());
    expect(modes.get('heating')!.state.blown.has('F1/breaker')).toBe(true);
    const network = fault.circuit();
    const off = settleMode(network, 'isolated', network.system.modes.isolated!.conditions);
    expect([...off.state.blown]).toEqual([]);
    const found = simulateAsFound(fault.circuit()).modes;
    expect(found.get('standby')!.outcomes.get('E1.display')).toBe(false);
  });

  it('stays in where neutral touches earth and no residual current is watched', () => {
    const fault = faultNamed('heat-only-two-port', 'X1:neutral to earth');
    const { modes } = simulate(fault.circuit());
    for (const [mode, { state, outcomes }] of modes) {
      expect([mode, [...state.blown]]).toEqual([mode, []]);
      expect([...outcomes]).toEqual([
        ...simulate(loadSystem('heat-only-two-port')).modes.get(mode)!.outcomes,
      ]);
    }
  });
});

describe('a part that takes its current and does no work', () => {
  it('a seized valve motor draws what a sound one does, and the valve stays shut', () => {
    const fault = faultNamed('heat-only-two-port', 'Q2/motor:seized');
    const sound = simulate(loadSystem('heat-only-two-port')).modes.get('heating')!;
    const seized = simulate(fault.circuit()).modes.get('heating')!;
    const amps = ({ solution }: typeof sound) =>
      effectiveAmps(solution, solution.network.branchIndex.get('Q2/motor')!);
    // The boiler's own load is gone, and with it some of the supply's drop.
    expect(Math.abs(amps(seized) / amps(sound) - 1)).toBeLessThan(0.005);
    expect([sound, seized].map(({ outcomes }) => outcomes.get('Q2.open'))).toEqual([true, false]);
  });

  it('shorted turns: 6 W at power factor 0.8 beside half its impedance draws 81 mA', () => {
    // Motor 230²·0.8/6 = 7053 Ω at 36.9°: 26.1 − j19.6 mA; beside it 230/4408 = 52.2 mA.
    const fault = faultNamed('heat-only-two-port', 'Q2/motor:weak');
    const weak = simulate(fault.circuit()).modes.get('heating')!;
    const { network } = weak.solution;
    const motor = branchCurrent(weak.solution, network.branchIndex.get('Q2/motor')!, 'ac');
    const turns = branchCurrent(weak.solution, network.branches.length - 1, 'ac');
    const total = Math.hypot(motor.re + turns.re, motor.im + turns.im);
    expect(Math.abs(total / 0.0807 - 1)).toBeLessThan(0.01);
    expect(weak.outcomes.get('Q2.open')).toBe(false);
  });

  it('a boiler that does not fire has its supply and its call', () => {
    const at = (outcome: string) =>
      seen('heat-only-two-port', 'E1:does not fire', 'heating', outcome);
    expect([at('E1.display'), at('E1.burner'), at('M1.running')]).toEqual([true, false, true]);
  });
});

describe('settings', () => {
  it('flat cells keep a control from calling whatever is turned up', () => {
    const id = 'B1:battery flat on';
    expect(seen('combi-two-wire', id, 'heating', 'B1.calling')).toBe(false);
    expect(seen('combi-two-wire', id, 'heating', 'E1.burner')).toBe(false);
    expect(seen('combi-two-wire', id, 'heating', 'E1.display')).toBe(true);
  });

  it('a latched lever opens the valve to flow and calls nothing', () => {
    const id = 'Q2:latched on';
    expect(seen('heat-only-two-port', id, 'standby', 'Q2.open')).toBe(true);
    expect(seen('heat-only-two-port', id, 'standby', 'E1.burner')).toBe(false);
  });

  it('only a condition that is there is set', () => {
    const network = loadSystem('combi-two-wire');
    const change = { kind: 'set', condition: 'B1.asleep', value: true } as const;
    expect(() => changeNetwork(network, [change])).toThrow(
      'combi-two-wire has no condition B1.asleep; it has',
    );
    expect(() => changeNetwork(network, [{ kind: 'idle', branch: 'Q1/fuse' }])).toThrow(
      'combi-two-wire: Q1/fuse does no work; a load, motor or input does',
    );
  });
});

describe('wiring', () => {
  it('with the motor cores of two valves crossed, each call opens the other’s valve', () => {
    const [, faults] = faultsIn('heat-only-two-port');
    const crossed = faults.filter(
      ({ class: kind, id }) => kind === 'crossedValves' && /BN@\d\/W\d+\.BN@/.test(id),
    );
    expect(crossed.map(({ id }) => id)).toHaveLength(1);
    const { modes } = simulate(crossed[0]!.circuit());
    const open = (mode: string) =>
      ['Q2.open', 'Q3.open'].map((outcome) => modes.get(mode)!.outcomes.get(outcome));
    expect(open('heating')).toEqual([false, true]);
    expect(open('hot-water')).toEqual([true, false]);
    expect(modes.get('heating')!.outcomes.get('E1.burner')).toBe(true);
  });

  it('a green-yellow used as a live works in every mode, and leaves its control without earth', () => {
    const [network, faults] = faultsIn('combi-two-wire');
    const fault = faults.find(({ class: kind }) => kind === 'earthAsLive')!;
    const wrong = simulate(fault.circuit());
    for (const [mode, { outcomes }] of simulate(network).modes)
      expect([...wrong.modes.get(mode)!.outcomes]).toEqual([...outcomes]);
    const { solution } = wrong.modes.get('isolated')!;
    expect(resistanceBetween(solution, 'B1.E', 'E1.E')).toBeGreaterThan(1e6);
  });

  it.each(['secondSupply', 'weldedSwitch'] as const)(
    '%s: a live stays with the spur off, so proving dead ends there',
    (kind) => {
      const faults = faultsIn('heat-only-mid-position')[1].filter(
        (fault) => fault.class === kind && !/^F1|neutral/.test(fault.id),
      );
      expect(faults.length).toBeGreaterThan(0);
      for (const fault of faults) {
        const { solution } = simulate(fault.circuit()).modes.get('isolated')!;
        const node = nodeOf(solution.network, 'X1.1').index;
        expect(magnitude(potential(solution.ac, node)), fault.id).toBeGreaterThan(200);
      }
    },
  );

  it('a borrowed neutral trips the RCBO of the circuit it left, and no fuse', () => {
    const [, faults] = faultsIn('heat-only-mid-position');
    const borrowed = faults.find(({ id }) => id === 'W3.BU@1:borrowed')!;
    const { modes } = simulate(borrowed.circuit());
    expect([...modes.get('heating')!.state.blown]).toEqual(['F1/breaker']);
  });
});

describe('an independent simulator', () => {
  beforeAll(() => startNgspice());

  const ONE_OF_EACH = [
    'burntJoint',
    'statBurnt',
    'damp',
    'neutralEarth',
    'weakValveMotor',
    'borrowedNeutral',
    'secondSupply',
    'crossed',
  ];

  it.each(ONE_OF_EACH)('agrees at every node: %s', async (kind) => {
    const fault = faultsIn('heat-only-mid-position')[1].find((one) => one.class === kind)!;
    const settled = simulate(fault.circuit()).modes.get('heating')!;
    const { network } = settled.solution;
    const voltages = await ngspice(withBranchCurrents(netlist(network, settled.state, 'ac')));
    for (const { index, id } of network.nodes) {
      const theirs = voltages.get(`n${index}`)!;
      const ours = potential(settled.solution.ac, index);
      const allowed = Math.max(1e-6 * magnitude(theirs), 1e-12);
      expect(Math.hypot(ours.re - theirs.re, ours.im - theirs.im), id).toBeLessThan(allowed);
    }
  });
});

it.each(['combi-two-wire', 'combi-wireless-condensate-pump'])('%s: every fault builds', (id) => {
  for (const fault of faultsIn(id)[1]) expect(() => fault.circuit(), fault.id).not.toThrow();
});
