import { describe, expect, it } from 'vitest';
import type { Logic } from '../../schemas/index.ts';
import {
  atRest,
  conditionsOf,
  effectiveVolts,
  holds,
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
      A1 lamp: load M N { watts: 60 }
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
});
