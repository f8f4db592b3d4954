import { describe, expect, test } from 'vitest';
import { simulate } from '../../src/circuit/index.ts';
import { drawingData } from '../../src/components/diagram/make-data.ts';
import { sheetOf } from '../../src/job/sheet.ts';
import { extraLowCaution, extraLowPoints, wiringTable } from '../../src/wiring/index.ts';
import { shippedNetworks } from '../support/content.ts';
import { circuit } from '../support/notation.ts';

// No mains on the pair before a meter made for less, and no insulation tester into electronics
// (common practice, no source; of what a test may damage, BS 7671 643.3.3, from memory).
const NO_MAINS = /prove each core to earth with the two-pole tester/;
const NO_INSULATION_TESTER = /never an insulation tester/;

/** A boiler's pair that passes through a box to a relay whose own entry says nothing of it. */
const pair = circuit(`
  F1 mains: supply L N E
  E1 board: load L N { watts: 5 }
  E1 signal: source call1 call2 { volts: 24, ohms: 2400 }
  E1.L carries line
  E1.E carries earth
  E1.call1 carries call, extra-low
  E1.call2 carries call, extra-low
  B1 contact: contact COM NO { closed: calling }
  W1: flex 0.75 1; BN F1.L E1.L; BU F1.N E1.N; GNYE F1.E E1.E
  W2: flex 0.75 1; BN E1.call1 X1.1; BU E1.call2 X1.2
  W3: flex 0.75 1; BN X1.1 B1.COM; BU X1.2 B1.NO
  link X1.2 X1.3
  X1 way: load 1 4 { watts: 1 }
  mode rest:
`);

test('a pair reaches every terminal that cores and links join to it, and none across a load', () => {
  expect([...extraLowPoints(pair)].toSorted()).toEqual([
    'B1.COM',
    'B1.NO',
    'E1.call1',
    'E1.call2',
    'X1.1',
    'X1.2',
    'X1.3',
  ]);
});

test('both ends and the box between are cautioned; where no earth comes, the other end is named', () => {
  for (const item of ['E1', 'X1', 'B1']) {
    expect([item, extraLowCaution(pair, item)]).toEqual([item, expect.stringMatching(NO_MAINS)]);
    expect(extraLowCaution(pair, item)).toMatch(NO_INSULATION_TESTER);
  }
  expect(extraLowCaution(pair, 'E1')).not.toContain('other end');
  expect(extraLowCaution(pair, 'B1')).toContain('other end');
  expect(extraLowCaution(pair, 'F1')).toBe('');
});

describe('the volt-free combi', () => {
  const network = shippedNetworks().get('combi-volt-free')!;
  const simulation = simulate(network);
  const ends = ['E1.call 1', 'E1.call 2', 'B1.COM', 'B1.NO'];

  test('says both on the terminal sheet of either end', () => {
    const data = drawingData({ simulation, network, wiring: wiringTable(simulation) });
    for (const id of ends) {
      expect([id, data.terminals[id]!.caution]).toEqual([id, expect.stringMatching(NO_MAINS)]);
      expect(data.terminals[id]!.caution).toMatch(NO_INSULATION_TESTER);
    }
    expect(data.terminals['E1.L']!.caution).not.toMatch(NO_INSULATION_TESTER);
  });

  test('says both at either end in the job', () => {
    const { items } = sheetOf(simulation);
    const points = items.flatMap(({ points }) => points);
    for (const id of ends) {
      const care = points.find((point) => point.id === id)!.care;
      expect([id, care]).toEqual([id, expect.stringMatching(NO_MAINS)]);
      expect(care).toMatch(NO_INSULATION_TESTER);
    }
    expect(points.find(({ id }) => id === 'E1.L')!.care).toBe('');
  });
});
