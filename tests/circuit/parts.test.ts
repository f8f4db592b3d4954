import { describe, expect, it } from 'vitest';
import { add, divide, multiply, subtract } from '../../src/circuit/complex.ts';
import {
  admittance,
  branchCurrent,
  burden,
  complex,
  effectiveAmps,
  effectiveVolts,
  holds,
  impedanceBetween,
  magnitude,
  partsOf,
  potential,
  REFERENCE,
  settleMode,
  voltage,
} from '../../src/circuit/index.ts';
import { circuit } from '../support/notation.ts';

/** A supply so strong that a load stands at its voltage to a few parts in ten thousand. */
const atTerminals = (element: string, volts = 230) => {
  const network = circuit(
    `F1 mains: supply L N E
     F1 thing: ${element}`,
    { supplyVolts: volts },
  );
  return { network, settled: settleMode(network, 'on', {}) };
};

describe('a load', () => {
  it.each([
    [60, 1],
    [45, 0.6],
    [8, 0.8],
    [3000, 1],
  ])('of %s W at power factor %s takes just that at its rated voltage', (watts, powerFactor) => {
    const { network, settled } = atTerminals(
      `load L N { watts: ${watts}, powerFactor: ${powerFactor} }`,
    );
    const index = network.branchIndex.get('F1/thing')!;
    const y = admittance(partsOf(network.branches[index]!, settled.state, 50), 50);
    // P = V²·Re Y, Q = −V²·Im Y.
    expect(230 ** 2 * y.re).toBeCloseTo(watts, 9);
    const reactive = watts * Math.sqrt(1 / powerFactor ** 2 - 1);
    expect(-(230 ** 2) * y.im).toBeCloseTo(reactive, 9);
  });

  it('takes its rated current from the supply, less what the supply drops', () => {
    const { network, settled } = atTerminals('load L N { watts: 1150 }');
    const index = network.branchIndex.get('F1/thing')!;
    const flow = branchCurrent(settled.solution, index, 'ac');
    // 46 Ω behind the 0.35 Ω of line and neutral.
    expect(magnitude(flow)).toBeCloseTo(230 / 46.35, 6);
    expect(effectiveAmps(settled.solution, index)).toBeCloseTo(230 / 46.35, 6);
    expect(effectiveVolts(settled.solution, index)).toBeCloseTo((230 * 46) / 46.35, 6);
  });
});

describe('mixed currents', () => {
  it('add as effective values: alternating and direct squared, summed, and the root', () => {
    // 24 V DC and 230 V AC in series through 1 kΩ.
    const { network, settled } = atTerminals(
      `resistor a N { ohms: 1000 }
       F1 cell: source a L { volts: 24, ohms: 1 }`,
    );
    const index = network.branchIndex.get('F1/thing')!;
    const [ac, dc] = [230 / 1001.35, 24 / 1001.35];
    expect(effectiveAmps(settled.solution, index)).toBeCloseTo(Math.hypot(ac, dc), 7);
    expect(effectiveVolts(settled.solution, index)).toBeCloseTo(1000 * Math.hypot(ac, dc), 4);
  });
});

describe('a cable', () => {
  it('has between two cores what its length gives, half of it at each end', () => {
    const network = circuit(
      `A1 here: resistor L N { ohms: 1e6 }
       W1: flex 0.75 8; BN A1.L B1.L; BU A1.N B1.N`,
      { coreCapacitance: 100e-12, surroundingsCapacitance: 15e-12 },
    );
    const farads = (part: RegExp) =>
      network.branches.map((b) => (b.kind === 'stray' && part.test(b.id) ? b.farads : 0));
    const sum = (values: number[]) => values.reduce((a, b) => a + b);
    expect(sum(farads(/BN-BU/))).toBeCloseTo(800e-12, 18);
    expect(sum(farads(/BN-BU 1/))).toBeCloseTo(400e-12, 18);
    expect(sum(farads(/BN surroundings/))).toBeCloseTo(120e-12, 18);
    const siemens = network.branches.map((b) =>
      b.kind === 'stray' && b.id.includes('BN-BU') ? b.siemens : 0,
    );
    expect(sum(siemens)).toBeCloseTo(8e-10, 18);
  });

  it('has nothing between the cores of single-core wires', () => {
    const network = circuit(`
      A1 here: resistor L N { ohms: 1e6 }
      W1: single 1 8; BN A1.L B1.L; BU A1.N B1.N`);
    expect(network.branches.filter(({ id }) => id.includes('BN-BU'))).toEqual([]);
  });
});

describe('contacts', () => {
  it.each([
    ['true', 0.05],
    ['false', 1e9],
    ['{ all: [true, { not: false }] }', 0.05],
    ['{ all: [true, false] }', 1e9],
    ['{ any: [false, true] }', 0.05],
    ['{ any: [false, { not: true }] }', 1e9],
  ])('closed: %s is %s Ω', (closed, ohms) => {
    const { network, settled } = atTerminals(`contact L N2 { closed: ${closed} }`);
    const branch = network.branches[network.branchIndex.get('F1/thing')!]!;
    expect(partsOf(branch, settled.state, 50).ohms).toBe(ohms);
  });

  it.each([
    ['shut', true],
    ['open', false],
    ['[open, half]', false],
    ['[shut, half]', true],
  ])('in position shut, closed at position %s: %s', (position, closed) => {
    const network = circuit(`
      Q1 contact: contact a b { closed: { position: ${position} } }
      Q1 coil: load a c { watts: 1 }
      Q1 rests shut; shut > half: { energised: coil }; half > open: { energised: coil }
      Q1 made: when { position: ${position} }`);
    const settled = settleMode(network, 'on', {});
    expect(settled.outcomes.get('Q1.made')).toBe(closed);
  });
});

it('what nobody has set is not so', () => {
  const { state } = atTerminals('contact L N2 { closed: on }').settled;
  expect(holds('on', 'F1', { ...state, conditions: new Map() })).toBe(false);
});

describe('an instrument’s burden', () => {
  it('is its resistance for direct current, and less where it has capacitance', () => {
    expect(burden({ ohms: 10e6, farads: 100e-12 }, 0)).toEqual({ re: 10e6, im: 0 });
    // |Z| = R / √(1 + (ωRC)²).
    const z = burden({ ohms: 10e6, farads: 100e-12 }, 50);
    const expected = 10e6 / Math.hypot(1, 2 * Math.PI * 50 * 10e6 * 100e-12);
    expect(magnitude(z)).toBeCloseTo(expected, 3);
  });
});

describe('the arithmetic of phasors', () => {
  // (3 + 4j)(1 − 2j) = 11 − 2j; (3 + 4j)/(1 − 2j) = (3 + 4j)(1 + 2j)/5 = −1 + 2j.
  const [a, b] = [complex(3, 4), complex(1, -2)];

  it('by hand', () => {
    expect(add(a, b)).toEqual({ re: 4, im: 2 });
    expect(subtract(a, b)).toEqual({ re: 2, im: 6 });
    expect(multiply(a, b)).toEqual({ re: 11, im: -2 });
    expect(divide(a, b).re).toBeCloseTo(-1, 14);
    expect(divide(a, b).im).toBeCloseTo(2, 14);
    expect(magnitude(a)).toBe(5);
    expect(complex(7)).toEqual({ re: 7, im: 0 });
  });

  it('divides by the very small and the very large without overflow', () => {
    expect(divide(complex(1), complex(1e-200, 0)).re).toBe(1e200);
    expect(divide(complex(1e200), complex(0, 1e200))).toEqual({ re: 0, im: -1 });
  });
});

describe('a current through a branch with a source', () => {
  const network = circuit(`
    E1 cell: source plus minus { volts: 24, ohms: 100 }
    E1 load: resistor plus minus { ohms: 2300 }
    E1 mains: supply L N E
    E1 tied: link minus N
    E1 heater: load L N { watts: 1150 }`);
  const { solution } = settleMode(network, 'on', {});
  const amps = (id: string, kind: 'ac' | 'dc') =>
    branchCurrent(solution, network.branchIndex.get(id)!, kind);

  it('is what goes round its loop, out of its first end and into the load’s', () => {
    // 24 V over 2400 Ω; 230 V over 46.35 Ω.
    expect(amps('E1/load', 'dc').re).toBeCloseTo(0.01, 6);
    expect(amps('E1/cell', 'dc').re).toBeCloseTo(-0.01, 6);
    expect(magnitude(amps('E1/cell', 'ac'))).toBeLessThan(1e-6);
    expect(amps('E1/heater', 'ac').re).toBeCloseTo(230 / 46.35, 6);
    expect(amps('E1/supply line', 'ac').re).toBeCloseTo(-230 / 46.35, 5);
    expect(magnitude(amps('E1/supply line', 'dc'))).toBeLessThan(1e-6);
  });

  it('is nothing to the supply’s own star point from itself', () => {
    expect(voltage(solution.ac, REFERENCE, REFERENCE)).toEqual({ re: 0, im: 0 });
    expect(potential(solution.ac, REFERENCE)).toEqual({ re: 0, im: 0 });
    // Half of the loop's 0.35 Ω stands between the star point and the line terminal; the load
    // and the other half lie beside it.
    const line = network.nodeIndex.get('E1.L')!;
    const seen = impedanceBetween(solution.ac, line, REFERENCE);
    expect(seen.re).toBeCloseTo((0.175 * 46.175) / 46.35, 4);
    expect(impedanceBetween(solution.ac, REFERENCE, line)).toEqual(seen);
  });

  it('does not change what another state of the same network was solved for', () => {
    const switched = circuit(`
      F1 mains: supply L N E
      F1 switch: contact L out { closed: on }
      F1 lamp: load out N { watts: 5 }`);
    const index = switched.branchIndex.get('F1/switch')!;
    const off = settleMode(switched, 'off', {}).solution;
    const on = settleMode(switched, 'on', { 'F1.on': true }).solution;
    expect([off.parts[index]!.ohms, on.parts[index]!.ohms]).toEqual([1e9, 0.05]);
    expect(effectiveVolts(off, index)).toBeGreaterThan(200);
  });
});
