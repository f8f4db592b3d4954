import { describe, expect, it } from 'vitest';
import {
  changeNetwork,
  resistanceBetween,
  settleMode,
  simulate,
} from '../../../src/circuit/index.ts';
import { temperatureFactor } from '../../../src/published/index.ts';
import { celsius } from '../../../src/units/index.ts';
import { cablesAndProtection } from '../../../src/wiring/index.ts';
import { circuit } from '../../support/notation.ts';
import { shippedSystem, shippedSystems } from '../../support/shipped.ts';

/** R1 and R2 at the one item at the end of a run. */
function atTheEnd(cable: string) {
  const network = circuit(`
    F1 mains: supply L N E
    F1 is supply
    F1.L carries line
    F1.E carries earth
    P1 is class I boiler
    P1 element: load L N { watts: 100 }
    P1 case: link E metal
    P1.L carries line
    P1.N carries neutral
    P1.E carries earth
    W1: ${cable}; BN F1.L P1.L; BU F1.N P1.N; GNYE F1.E P1.E
    mode on:`);
  const { continuity } = cablesAndProtection(simulate(network));
  expect(continuity.map(({ item }) => item)).toEqual(['P1']);
  return continuity[0]!;
}

describe('R1 + R2 of twin and earth, against the published table', () => {
  // IET On-Site Guide, Table I1 (as quoted): mΩ/m at 20 °C.
  it.each([
    ['1/1', 36.2],
    ['1.5/1', 30.2],
    ['2.5/1', 25.51],
    ['2.5/1.5', 19.51],
    ['2.5/2.5', 14.82],
    ['4/1.5', 16.71],
    ['4/2.5', 12.02],
  ])('%s mm²: %d mΩ/m', (size, milliohms) => {
    const { origin } = atTheEnd(`twin and earth ${size} 10`);
    expect(origin.r1 + origin.r2).toBeCloseTo(milliohms / 100, 9);
  });

  it('22 m of 2.5/1.5: R1 0.163, R2 0.266, together 0.429 Ω (worked example, trade forum)', () => {
    const { origin } = atTheEnd('twin and earth 2.5/1.5 22');
    expect(origin.r1).toBeCloseTo(0.163, 3);
    expect(origin.r2).toBeCloseTo(0.266, 3);
    expect(origin.r1 + origin.r2).toBeCloseTo(0.429, 3);
    // On-Site Guide, Table I3 (seen): 1.20 times at 70 °C, so 0.515 Ω. IEC 60228 gives 1.1965.
    const warm = (origin.r1 + origin.r2) / temperatureFactor(celsius(70));
    expect(Math.abs(warm / 0.515 - 1)).toBeLessThan(0.005);
  });

  it('flexible cord has an earth of its own size: 10 m of 0.75 mm², 26 mΩ/m each (IEC 60228)', () => {
    const { origin } = atTheEnd('flex 0.75 10');
    expect([origin.r1, origin.r2]).toEqual([0.26, 0.26]);
  });
});

describe('by hand, a combi with a two-wire control', () => {
  const { continuity } = shippedSystem('combi-two-wire').cables;
  const of = (item: string) => continuity.find((one) => one.item === item)!;

  it('to the boiler: 1.5 m of 0.75 mm² flex from the spur, 15 m of 2.5/1.5 before it', () => {
    const { line, earth, through, lineCores, earthCores, origin, isolator } = of('E1');
    expect({ line, earth, through, lineCores, earthCores }).toEqual({
      line: 'E1.L',
      earth: 'E1.E',
      through: [],
      lineCores: ['W1.BN', 'W2.BN'],
      earthCores: ['W1.GNYE', 'W2.GNYE'],
    });
    // IEC 60228, Ω/km: 26.0 flexible 0.75 mm²; 7.41 and 12.1 solid 2.5 and 1.5 mm².
    expect(isolator).toMatchObject({ item: 'Q1' });
    expect(isolator!.r1 + isolator!.r2).toBeCloseTo(2 * 0.026 * 1.5, 9);
    expect(origin.r1).toBeCloseTo(0.00741 * 15 + 0.026 * 1.5, 9);
    expect(origin.r2).toBeCloseTo(0.0121 * 15 + 0.026 * 1.5, 9);
  });

  it('to the control: 12 m of 1.0/1.0 more', () => {
    const { isolator } = of('B1');
    expect(isolator!.r1 + isolator!.r2).toBeCloseTo(2 * 0.026 * 1.5 + 12 * 0.0362, 9);
  });

  it('to the spur itself only from the consumer unit', () => {
    expect(of('Q1').isolator).toBeNull();
    expect(of('Q1').origin.r1 + of('Q1').origin.r2).toBeCloseTo(15 * 0.01951, 9);
  });
});

describe.each(shippedSystems().map((s) => [s.id, s] as const))('%s', (_, { network, cables }) => {
  it('has every class I item and the boiler', () => {
    const wanted = [...network.items.values()].filter(
      ({ device: { protection, family } }) => protection === 'class I' && family !== 'supply',
    );
    const found = cables.continuity.map(({ item }) => item);
    for (const { reference } of wanted) expect(found).toContain(reference);
    expect(wanted.some(({ device: { family } }) => family === 'boiler')).toBe(true);
  });

  it('reads as an ohmmeter in the circuit does, isolated, line and earth joined at the item', () => {
    const isolated = network.system.modes.isolated!.conditions;
    const oneWay = cables.continuity.filter(
      ({ isolator, through }) => isolator && through.length === 0,
    );
    expect(oneWay.length).toBeGreaterThan(0);
    for (const { item, line, earth, isolator } of oneWay) {
      const joined = changeNetwork(network, [{ kind: 'join', from: line, to: earth, ohms: 1e-6 }]);
      const { solution } = settleMode(joined, 'isolated', isolated);
      const load = (carries: string) =>
        network.nodes.find(
          (n) =>
            n.item === isolator!.item &&
            n.terminal?.carries === carries &&
            n.name.startsWith('load'),
        )!.id;
      const shown = resistanceBetween(solution, load('line'), load('earth'));
      const { r1, r2 } = isolator!;
      // Fuses and links on the way add up to 0.05 Ω each; a second way for a conductor takes off.
      const above = shown - r1 - r2;
      expect([item, above < 0.12, above > -0.5 * (r1 + r2)]).toEqual([item, true, true]);
      if (item === 'E1') expect(Math.abs(shown - r1 - r2)).toBeLessThan(0.05);
    }
  });
});
