import { describe, expect, it } from 'vitest';
import { Opening } from '../../schemas/index.ts';
import {
  baseMinutes,
  fromTheFront,
  minutesFrom,
  modeMinutes,
  openingMinutes,
  type Test,
} from '../../src/diagnosis/tests/index.ts';
import type { TestPair } from '../../src/wiring/index.ts';
import { circuit } from '../support/notation.ts';

const plain = circuit(`
  F1 mains: supply L N E
  F1 fuse: fuse L out { rating: 3 }
  E1 lamp: load L N { watts: 5 }
  W1: flex 0.75 10; BN F1.out E1.L; BU F1.N E1.N
  mode standby:
  mode heating:
  mode isolated:`);
const openings = {
  E1: { case: Opening.parse({ title: 'case', minutes: 6 }) },
  F1: {
    faceplate: Opening.parse({ title: 'faceplate', minutes: 3 }),
    carrier: Opening.parse({
      title: 'fuse carrier',
      minutes: 0,
      needs: 'switch off',
      shows: [],
      holds: ['fuse'],
    }),
  },
};
const network = {
  ...plain,
  system: {
    ...plain.system,
    modes: { ...plain.system.modes, heating: { ...plain.system.modes.heating!, minutes: 3 } },
  },
  items: new Map(
    [...plain.items].map(([id, item]) => [
      id,
      { ...item, device: { ...item.device, openings: openings[id as 'E1' | 'F1'] } },
    ]),
  ),
};

const pair: TestPair = {
  id: 'E1.L–E1.N',
  kind: 'line',
  title: 'L to N',
  item: 'E1',
  from: 'E1.L',
  to: 'E1.N',
};
const LOOK: Test = {
  id: 'l',
  kind: 'look',
  mode: 'standby',
  place: null,
  outcome: 'E1.lit',
};
const LIVE: Test = { id: 'v', kind: 'live', mode: 'heating', place: 'E1/case', pair };
const DEAD: Test = { id: 'd', kind: 'dead', mode: 'isolated', place: 'E1/case', pair };
const FUSE: Test = {
  id: 'f',
  kind: 'fuse',
  mode: 'isolated',
  place: 'F1/carrier',
  item: 'F1',
  branch: 'F1/fuse',
};

// All of these figures: common practice, no source.
describe('the minutes of an act', () => {
  it.each<[Test, number]>([
    [LOOK, 0],
    [LIVE, 0.5],
    [DEAD, 0.5],
    [FUSE, 2 / 3],
  ])('%o: a look costs nothing, what is measured takes its time', (test, minutes) => {
    expect(baseMinutes(network, test)).toBe(minutes);
  });

  it('of isolating, locking off and proving dead are four, of restoring two and the mode’s own', () => {
    expect(modeMinutes(network, 'standby', 'isolated')).toBe(4);
    expect(modeMinutes(network, 'heating', 'isolated')).toBe(4);
    expect(modeMinutes(network, 'isolated', 'heating')).toBe(2 + 3);
    expect(modeMinutes(network, 'isolated', 'standby')).toBe(2 + 1);
  });

  it('of another mode are its own, one where the entry says none, nothing to stay', () => {
    expect(modeMinutes(network, 'standby', 'heating')).toBe(3);
    expect(modeMinutes(network, 'heating', 'standby')).toBe(1);
    expect(modeMinutes(network, 'isolated', 'isolated')).toBe(0);
    expect(modeMinutes(network, 'heating', 'heating')).toBe(0);
  });

  it('of opening a place are its device’s and those of a look inside; there is no other place', () => {
    // Twenty seconds of looking inside, five for each of two cores: common practice, no source.
    expect(openingMinutes(network, 'E1/case')).toBe(6 + 20 / 60 + 10 / 60);
    expect(() => openingMinutes(network, 'X9/case')).toThrow(
      'no place X9/case; it has F1/faceplate, F1/carrier, E1/case',
    );
  });
});

describe('the minutes of a test from where one stands', () => {
  const from = (mode: string, test: Test, ...opened: string[]) =>
    minutesFrom(network, { mode, opened: new Set(opened) }, test);

  it('a closed place is opened isolated, and the supply put back for a live reading', () => {
    expect(from('standby', LIVE)).toBe(0.5 + 4 + 6.5 + (2 + 3));
    expect(from('standby', DEAD)).toBe(0.5 + 4 + 6.5);
    expect(from('isolated', DEAD)).toBe(0.5 + 6.5);
    expect(from('standby', LIVE, 'E1/case')).toBe(0.5 + 3);
    expect(from('isolated', DEAD, 'E1/case')).toBe(0.5);
  });

  it('a fuse that draws out from the front needs a switch thrown, and no cover off', () => {
    expect(fromTheFront(network, FUSE)).toBe(true);
    expect(fromTheFront(network, { ...FUSE, place: 'F1/faceplate' })).toBe(false);
    expect(from('heating', FUSE)).toBe(0.25 + 2 / 3);
    expect(from('isolated', FUSE)).toBe(2 / 3);
  });
});
