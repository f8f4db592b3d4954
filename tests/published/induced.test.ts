import { describe, expect, it } from 'vitest';
import {
  type Branch,
  branchCurrent,
  INSTRUMENTS,
  magnitude,
  nodeOf,
  read,
  settleMode,
} from '../../src/circuit/index.ts';
import {
  CORE_CAPACITANCE_PER_METRE,
  inducedVolts,
  NOMINAL_VOLTS,
  SUPPLY_HERTZ,
} from '../../src/published/index.ts';
import { withBranches } from '../support/networks.ts';
import { ngspice } from '../support/ngspice.ts';
import { circuit } from '../support/notation.ts';

/** A core between a live one and earth, 1 nF to each: about 10 m of cable. */
const NANOFARAD = 1e-9;

/**
 * Derived: V·ωC1R / √(1 + (ωR(C1 + C2))²) at 230 V, 50 Hz, C1 = C2 = 1 nF. Last, half a
 * unit of the last digit given.
 */
const SHOWN = [
  ['multimeter', 10e6, 113.5706, 5e-5],
  ['tester', 200e3, 14.3386, 5e-5],
  ['low-impedance', 3e3, 0.21677, 5e-7],
] as const;

/** The core as a network of nothing but the supply and the two capacitances. */
function floatingCore() {
  const network = circuit(`
    F1 mains: supply L N E
    F1 place: resistor core E { ohms: 1 }`);
  const at = (name: string) => nodeOf(network, `F1.${name}`).index;
  const capacitance = (id: string, to: number): Branch => ({
    kind: 'stray',
    id,
    from: at('core'),
    to,
    farads: NANOFARAD,
    siemens: 0,
  });
  return withBranches(network, [
    ...network.branches.filter(({ kind }) => kind === 'supply'),
    capacitance('C1', at('L')),
    capacitance('C2', at('E')),
  ]);
}

describe('voltage induced on a floating core', () => {
  it.each(SHOWN)('%s of %s Ω shows %s V by the closed form', (_, ohms, expected, half) => {
    const shown = inducedVolts(NOMINAL_VOLTS, SUPPLY_HERTZ, NANOFARAD, NANOFARAD, ohms);
    expect(Math.abs(shown - expected)).toBeLessThan(half);
  });

  it.each(SHOWN)(
    '%s of %s Ω shows %s V in a network solved by the engine',
    (id, ohms, expected, half) => {
      const instrument = INSTRUMENTS.find((i) => i.id === id)!;
      expect(instrument.ohms).toBe(ohms);
      const { solution } = settleMode(floatingCore(), 'on', {});
      const shown = read(solution, 'F1.core', 'F1.E', instrument);
      expect(Math.abs(shown.ac - expected)).toBeLessThan(half);
      const closed = inducedVolts(NOMINAL_VOLTS, SUPPLY_HERTZ, NANOFARAD, NANOFARAD, ohms);
      expect(Math.abs(shown.ac / closed - 1)).toBeLessThan(1e-6);
    },
  );

  it.each(SHOWN)('%s of %s Ω shows %s V in ngspice', async (_, ohms, expected, half) => {
    const voltages = await ngspice(`V1 live 0 DC 0 AC ${NOMINAL_VOLTS}
C1 live core ${NANOFARAD}
C2 core 0 ${NANOFARAD}
R1 core 0 ${ohms}
.ac lin 1 ${SUPPLY_HERTZ} ${SUPPLY_HERTZ}
.end`);
    expect(Math.abs(magnitude(voltages.get('core')!) - expected)).toBeLessThan(half);
  });

  it('drives 72.26 µA to earth through 10 m of cable held to earth', () => {
    // Rule of thumb ≥ 100 pF/m, 10 m ≈ 1 nF (The Capacitance Connection, Nuts & Volts); ωCV
    // at 230 V, 50 Hz (derived).
    expect(10 * CORE_CAPACITANCE_PER_METRE).toBeCloseTo(NANOFARAD, 15);
    const held = floatingCore();
    const at = (name: string) => nodeOf(held, `F1.${name}`).index;
    const short: Branch = {
      kind: 'wire link',
      id: 'short',
      item: 'F1',
      from: at('core'),
      to: at('E'),
      ohms: 0.005,
    };
    const network = withBranches(held, [...held.branches, short]);
    const { solution } = settleMode(network, 'on', {});
    const flow = branchCurrent(solution, network.branchIndex.get('C1')!, 'ac');
    expect(magnitude(flow) * 1e6).toBeCloseTo(72.26, 2);
    const closed = inducedVolts(NOMINAL_VOLTS, SUPPLY_HERTZ, NANOFARAD, NANOFARAD, 1e-3) / 1e-3;
    expect(closed * 1e6).toBeCloseTo(72.26, 2);
  });

  it('reads 60 to 120 V on a dead switch wire by a high-impedance meter', () => {
    // Commonly read on site (The Capacitance Connection, Nuts & Volts).
    const network = circuit(`
      F1 mains: supply L N E
      S1 switch: contact L SL { closed: on }
      A1 lamp: load SL N { watts: 10 }
      W1: flex 0.75 10; BN F1.L S1.L; BK S1.SL S1.spare; GNYE F1.E S1.E
      W2: flex 0.75 1; BU F1.N A1.N`);
    const { solution } = settleMode(network, 'off', {});
    const byMultimeter = read(solution, 'S1.SL', 'S1.E', { ohms: 10e6, farads: 0 });
    expect(byMultimeter.ac).toBeGreaterThan(60);
    expect(byMultimeter.ac).toBeLessThan(120);
    expect(byMultimeter.class).toBe('between');
    // And a low-impedance one shows it for what it is.
    expect(read(solution, 'S1.SL', 'S1.E', { ohms: 3e3, farads: 0 }).class).toBe('dead');
  });
});
