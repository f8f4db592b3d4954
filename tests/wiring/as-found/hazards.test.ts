import { describe, expect, test } from 'vitest';
import { simulate } from '../../../src/circuit/index.ts';
import {
  foundNetwork,
  HAZARD_KINDS,
  type HazardKind,
  hazardsOf,
} from '../../../src/wiring/as-found/index.ts';
import { shippedSystem, shippedSystems } from '../../support/shipped.ts';
import { foundFrom } from './notation.ts';

const TWO_WIRE = 'combi-two-wire';
const PUMP = 'combi-condensate-pump';
const WIRELESS = 'combi-wireless';
const BOTH = 'combi-wireless-condensate-pump';
const VOLT_FREE = 'combi-volt-free';
const TWO_PORT = 'heat-only-two-port';
const MID = 'heat-only-mid-position';
const SYSTEM_PUMP = 'heat-only-condensate-pump';

/**
 * Mistakes written by hand, each with the danger it makes: what installers leave behind
 * (common practice, no source), reasoned from the wiring alone before the rules were run.
 */
const MISTAKES: readonly (readonly [kind: HazardKind, system: string, marks: string])[] = [
  // A line on what should be earth, the protective conductor off or carrying it on.
  ['earth live', TWO_WIRE, 'W2.GNYE@1 > loose; W2.GNYE@2 > loose; E1.L -- E1.E'],
  ['earth live', PUMP, 'W4.GNYE@1 > X1.1'],
  ['earth live', WIRELESS, 'W3.GNYE@1 > E1.L'],
  ['earth live', TWO_PORT, 'W6.GNYE@1 > X1.3'],
  ['earth live', MID, 'W9.GNYE@1 > E1.pump L'],
  ['earth live', VOLT_FREE, 'W2.GNYE@1 > Q1.load L'],

  ['live when isolated', TWO_WIRE, 'W2.BN@1 > Q1.supply L'],
  ['live when isolated', PUMP, 'bridge Q1/line pole'],
  ['live when isolated', WIRELESS, 'W1.BN@2 > Q1.load L'],
  ['live when isolated', TWO_PORT, 'Q1.supply L -- Q1.load L'],
  ['live when isolated', MID, 'W1.BN@2 <> W2.BN@1'],
  ['live when isolated', VOLT_FREE, 'W1.BN@1 <> W1.BU@1; bridge Q1/neutral pole'],

  ['mains on extra-low', VOLT_FREE, 'W3.BN@1 > E1.L'],
  ['mains on extra-low', VOLT_FREE, 'E1.L -- E1.call 1'],
  ['mains on extra-low', VOLT_FREE, 'W2.BN@2 > E1.call 2'],
  ['mains on extra-low', VOLT_FREE, 'W2.BN@2 > E1.call 1'],
  ['mains on extra-low', VOLT_FREE, 'W2.BN@2 <> W3.BN@1'],

  ['safety bypassed', PUMP, 'X1.2 -- X1.3'],
  ['safety bypassed', PUMP, 'bridge M1/overflow switch'],
  ['safety bypassed', PUMP, 'W3.BN@1 > X1.1'],
  ['safety bypassed', PUMP, 'X2.2 -- X2.3'],
  ['safety bypassed', PUMP, 'W4 = BN BU GNYE; X1.1 -- X1.3'],
  ['safety bypassed', PUMP, 'M1.overflow COM -- M1.overflow NC'],
  ['safety bypassed', BOTH, 'X1.1 -- X1.3'],
  ['safety bypassed', BOTH, 'W3.BN@1 > X1.1'],
  ['safety bypassed', SYSTEM_PUMP, 'X1.7 -- X1.8'],
  ['safety bypassed', SYSTEM_PUMP, 'W3.BK@1 > X1.7'],
  ['safety bypassed', TWO_PORT, 'bridge F2/contact'],
  ['safety bypassed', TWO_PORT, 'X1.5 -- X1.6'],
  ['safety bypassed', TWO_PORT, 'W9.BN@1 > X1.5'],

  ['earth missing', TWO_WIRE, 'W2.GNYE@2 > loose'],
  ['earth missing', PUMP, 'W5.GNYE@1 > short'],
  ['earth missing', WIRELESS, 'W1 = BN BU'],
  ['earth missing', MID, 'W9 = BN BU'],
  ['earth missing', TWO_PORT, 'W8.GNYE@2 > loose'],
  ['earth missing', SYSTEM_PUMP, 'W11.GNYE@1 > loose'],

  // Polarity reversed, and a neutral lost behind a load.
  ['neutral live', TWO_WIRE, 'W1.BN@2 <> W1.BU@2'],
  ['neutral live', TWO_WIRE, 'W2.BN@1 <> W2.BU@1'],
  ['neutral live', PUMP, 'W5.BN@2 <> W5.BU@2'],
  ['neutral live', WIRELESS, 'W2.BU@2 > loose'],
  ['neutral live', TWO_PORT, 'W2.BN@2 <> W2.BU@2'],
  ['neutral live', MID, 'W1.BU@1 > loose'],

  ['neutral switched', TWO_WIRE, 'W2.BU@2 > loose; W3.BN@1 > Q1.load N; W3.BU@1 > E1.N'],
  ['neutral switched', TWO_PORT, 'W10.BU@1 > X1.9; W5.BN@1 > X1.N; W5.BK@1 > X1.9'],
  ['neutral switched', MID, 'W6.BN@1 > X1.N; W6.BK@1 > X1.10; W8.BU@1 > X1.10'],
  ['neutral switched', PUMP, 'W3.BU@1 > loose; W6.BN@1 > X1.N; W6.BK@1 > E1.N'],

  ['loose live', TWO_WIRE, 'W3.BN@2 > loose'],
  ['loose live', PUMP, 'W4.BK@2 > short'],
  ['loose live', WIRELESS, 'no K1'],
  ['loose live', TWO_PORT, 'W4.BN@2 > loose'],
  ['loose live', VOLT_FREE, 'no E1'],

  [
    'core colour',
    TWO_WIRE,
    'W3.BU@1 > loose; W3.BU@2 > loose; W3.GNYE@1 > E1.call return; W3.GNYE@2 > B1.NO',
  ],
  ['core colour', PUMP, 'W4 = BN BU BK GNYE; W4.GNYE@1 > X1.3; W4.GNYE@2 > X2.3'],
  ['core colour', MID, 'W4.GNYE@1 > X1.2; W4.GNYE@2 > K1.heating on'],
  ['core colour', TWO_PORT, 'W6.BU@1 > X1.E; W6.BU@2 > B2.E'],
  ['core colour', WIRELESS, 'W3 = BN BU BK GY VT; W3.VT@1 > E1.E; W3.VT@2 > K1.E'],

  ['current in earth', TWO_WIRE, 'W2.BU@2 > loose; E1.N -- E1.E'],
  ['current in earth', BOTH, 'W4.BU@1 > X1.E'],
  ['current in earth', TWO_PORT, 'W10.BU@1 > X1.E'],
  ['current in earth', TWO_PORT, 'W9.BU@1 > X1.E'],

  ['short circuit', TWO_WIRE, 'E1.L -- E1.N'],
  ['short circuit', PUMP, 'W4.BN@2 > X2.N'],
  ['short circuit', TWO_PORT, 'W2.BN@2 > X1.E'],
  ['short circuit', MID, 'X1.1 -- X1.N'],

  ['oversize fuse', TWO_WIRE, 'Q1/fuse 13'],
  ['oversize fuse', PUMP, 'bridge Q1/fuse'],
  ['oversize fuse', TWO_PORT, 'F1/breaker 40'],
  ['oversize fuse', WIRELESS, 'bridge E1/board fuse'],

  ['does not stop', TWO_WIRE, 'E1.call feed -- E1.call return'],
  ['does not stop', WIRELESS, 'E1.L -- E1.call return'],
  ['does not stop', VOLT_FREE, 'bridge B1/contact'],
  ['does not stop', TWO_PORT, 'X1.1 -- X1.7'],
  ['does not stop', MID, 'W3.BK@1 > X1.1'],

  ['fed through a control', TWO_WIRE, 'W2.BN@2 > loose; W3.BN@1 > Q1.load L; W3.BU@1 > E1.L'],
  ['fed through a control', PUMP, 'W3.BN@2 > E1.call return'],
  ['fed through a control', BOTH, 'W5.BN@1 > X1.3'],
  ['fed through a control', TWO_PORT, 'W3.BN@1 > X1.7'],
  ['fed through a control', MID, 'W3.BN@1 > X1.3'],
];

describe('a danger is found', () => {
  test('there are enough of them, of every kind', () => {
    expect(MISTAKES.length).toBeGreaterThanOrEqual(60);
    expect(new Set(MISTAKES.map(([kind]) => kind))).toEqual(new Set(HAZARD_KINDS));
  });

  test.each(MISTAKES)('%s: %s, %s', (kind, id, marks) => {
    const { network, simulation } = shippedSystem(id);
    const found = simulate(foundNetwork(network, foundFrom(network, marks)));
    const hazards = hazardsOf(found, simulation);
    expect(hazards.map((h) => h.kind)).toContain(kind);
    const order = hazards.map((h) => HAZARD_KINDS.indexOf(h.kind));
    expect(order).toEqual(order.toSorted((a, b) => a - b));
  });
});

/** Otherwise than the entry, and no danger by any of the rules. */
const HARMLESS: readonly (readonly [system: string, marks: string])[] = [
  [TWO_WIRE, 'W3.BN@2 <> W3.BU@2'],
  [VOLT_FREE, 'W3.BN@1 <> W3.BU@1'],
  [VOLT_FREE, 'W3.BN@1 > loose'],
  [PUMP, 'W6.GY@1 > E1.call return; W6.GY@2 > B1.NO; W6.BK@1 > loose; W6.BK@2 > loose'],
  [PUMP, 'W5.WH@2 <> W5.OG@2'],
  [PUMP, 'W4.BK@1 > X1.1'],
  [PUMP, 'no link 1'],
  [TWO_WIRE, 'Q1/fuse 2'],
];

describe('no danger is made up', () => {
  test.each(shippedSystems().map(({ id, simulation }) => ({ id, simulation })))(
    '$id as its entry has it',
    ({ simulation }) => {
      expect(hazardsOf(simulation, simulation)).toEqual([]);
    },
  );

  test.each(HARMLESS)('%s, %s', (id, marks) => {
    const { network, simulation } = shippedSystem(id);
    const found = simulate(foundNetwork(network, foundFrom(network, marks)));
    expect(hazardsOf(found, simulation)).toEqual([]);
  });
});

test('an item that is not there needs no earth', () => {
  const { network, simulation } = shippedSystem(VOLT_FREE);
  const found = simulate(foundNetwork(network, foundFrom(network, 'no E1')));
  expect(hazardsOf(found, simulation).map(({ kind }) => kind)).toEqual(['loose live']);
});

test('what is said of each danger names a place, and puts isolation before any act', () => {
  const said = new Map<HazardKind, string>();
  for (const [, id, marks] of MISTAKES) {
    const { network, simulation } = shippedSystem(id);
    const found = simulate(foundNetwork(network, foundFrom(network, marks)));
    for (const { kind, title, at, advice } of hazardsOf(found, simulation)) {
      expect(at.length).toBeGreaterThan(0);
      expect(title).toMatch(/^[A-Z]/);
      expect(title).not.toMatch(/undefined|#|\/|@/);
      said.set(kind, advice);
    }
  }
  for (const advice of said.values()) {
    expect(advice).not.toMatch(/\b(bridge|link out|try|reset|measure|live test)\b/i);
    if (/\b(test|touched|undone)\b/.test(advice)) expect(advice).toMatch(/prove dead|proved dead/);
  }
  expect(said.size).toBe(HAZARD_KINDS.length);
});
