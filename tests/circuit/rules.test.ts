import { describe, expect, it } from 'vitest';
import type { Logic } from '../../schemas/index.ts';
import { divide } from '../../src/circuit/complex.ts';
import {
  atRest,
  conditionsOf,
  effectiveVolts,
  holds,
  impedanceBetween,
  magnitude,
  type State,
  settle,
  settleMode,
  solve,
  voltage,
} from '../../src/circuit/index.ts';
import { shippedNetworks } from '../support/content.ts';
import { circuit } from '../support/notation.ts';

const STATE: State = {
  conditions: new Map([
    ['A1.on', true],
    ['A1.off', false],
  ]),
  energised: new Set(['A1/coil']),
  held: new Set(['A1/coil', 'A1/slow']),
  positions: new Map([['A1', 'open']]),
  blown: new Set(),
};

describe('a rule of a device', () => {
  it.each<[Logic, boolean]>([
    [true, true],
    [false, false],
    ['on', true],
    ['off', false],
    ['nothing of the kind', false],
    [{ energised: 'coil' }, true],
    [{ energised: 'slow' }, false],
    [{ held: 'slow' }, true],
    [{ held: 'none' }, false],
    [{ position: 'open' }, true],
    [{ position: 'shut' }, false],
    [{ position: ['shut', 'open'] }, true],
    [{ position: ['shut', 'mid'] }, false],
    [{ not: 'off' }, true],
    [{ all: ['on', { energised: 'coil' }] }, true],
    [{ all: ['on', 'off'] }, false],
    [{ any: ['off', { held: 'slow' }] }, true],
    [{ any: ['off', { not: 'on' }] }, false],
  ])('%j holds: %s', (rule, so) => expect(holds(rule, 'A1', STATE)).toBe(so));

  it('is of its own item', () => {
    for (const rule of [
      'on',
      { energised: 'coil' },
      { held: 'coil' },
      { position: 'open' },
    ] as Logic[])
      expect(holds(rule, 'A2', STATE)).toBe(false);
  });
});

describe('what comes to rest', () => {
  it('is the same by a mode’s name and by its conditions', () => {
    for (const network of shippedNetworks().values()) {
      for (const [mode, { conditions, after }] of Object.entries(network.system.modes)) {
        if (after !== undefined) continue;
        const named = settleMode(network, mode, conditions);
        const rest = settle(network, conditionsOf(network, conditions), atRest(network));
        expect(rest.state).toEqual(named.state);
        expect(rest.round).toEqual(named.round);
        expect(rest.hunting).toEqual(named.hunting);
      }
    }
  });

  it('has across each branch its alternating and direct volts together', () => {
    const network = circuit(`
      F1 mains: supply L N E
      A1 coil: motor L M { watts: 5, powerFactor: 0.3 }
      A1 lamp: load M O { watts: 60 }
      A1 heater: load O N { watts: 40 }
      A1 call: source L X { volts: 24, ohms: 100 }
      A1 input: sensing X N { ohms: 5000, ratedVolts: 24 }
      W1: flex 0.75 10; BN F1.L A1.L; BU F1.N A1.N
      mode on:`);
    const solution = solve(network, settleMode(network, 'on', {}).state);
    let both = 0;
    network.branches.forEach(({ from, to }, i) => {
      const ac = magnitude(voltage(solution.ac, from, to));
      const dc = voltage(solution.dc, from, to).re;
      if (ac > 1e-3 && Math.abs(dc) > 1e-3) both++;
      expect(effectiveVolts(solution, i)).toBeCloseTo(Math.hypot(ac, dc), 9);
    });
    expect(both).toBeGreaterThan(1);
  });

  it('has between two points the impedance of what lies there, in size and angle', () => {
    const network = circuit(`
      F1 mains: supply L N E
      A1 coil: motor L M { watts: 5, powerFactor: 0.3 }
      A1 winding: motor M N { watts: 9, powerFactor: 0.7 }
      W1: flex 0.75 1; BN F1.L A1.L; BU F1.N A1.N
      mode on:`);
    const { ac } = solve(network, settleMode(network, 'on', {}).state);
    const node = (id: string) => network.nodeIndex.get(id)!;
    // Of a load: V²·cos φ / P, at its angle; two of them side by side, the supply being next to none.
    const of = (watts: number, factor: number) => {
      const size = (230 ** 2 * factor) / watts;
      return { re: size * factor, im: size * Math.sqrt(1 - factor ** 2) };
    };
    const [a, b] = [of(5, 0.3), of(9, 0.7)];
    const sum = { re: a.re + b.re, im: a.im + b.im };
    const product = { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
    const due = divide(product, sum);
    const found = impedanceBetween(ac, node('A1.M'), node('A1.N'));
    expect(found.re / due.re).toBeCloseTo(1, 3);
    expect(found.im / due.im).toBeCloseTo(1, 3);
  });

  it('has it between two points of a chain too, whichever state was asked about before', () => {
    const network = circuit(`
      F1 mains: supply L N E
      A1 switch: contact L K { closed: on }
      A1 one: motor K M { watts: 5, powerFactor: 0.3 }
      A1 two: motor M O { watts: 9, powerFactor: 0.7 }
      A1 three: motor O N { watts: 20, powerFactor: 0.9 }
      W1: flex 0.75 1; BN F1.L A1.L; BU F1.N A1.N
      mode off:
      mode on: A1.on`);
    const between = (mode: string) => {
      const { ac } = solve(network, settleMode(network, mode, { 'A1.on': mode === 'on' }).state);
      return impedanceBetween(ac, network.nodeIndex.get('A1.M')!, network.nodeIndex.get('A1.O')!);
    };
    const of = (watts: number, factor: number) => {
      const size = (230 ** 2 * factor) / watts;
      return { re: size * factor, im: size * Math.sqrt(1 - factor ** 2) };
    };
    const [one, two, three] = [of(5, 0.3), of(9, 0.7), of(20, 0.9)];
    const around = { re: one.re + three.re, im: one.im + three.im };
    const sum = { re: around.re + two.re, im: around.im + two.im };
    const product = {
      re: two.re * around.re - two.im * around.im,
      im: two.re * around.im + two.im * around.re,
    };
    const joined = divide(product, sum);
    for (const mode of ['off', 'on', 'off', 'on']) {
      const found = between(mode);
      // Open, the way round the outside is not there.
      const due = mode === 'on' ? joined : two;
      expect(found.re / due.re).toBeCloseTo(1, 2);
      expect(found.im / due.im).toBeCloseTo(1, 2);
    }
  });
});
