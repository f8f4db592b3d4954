import { describe, expect, it } from 'vitest';
import { modeMinutes, openingMinutes, placeOf } from '../../src/diagnosis/tests/costs.ts';
import { baseMinutes, type Test } from '../../src/diagnosis/tests/index.ts';
import type { TestPair } from '../../src/wiring/index.ts';
import { circuit } from '../support/notation.ts';

const plain = circuit(`
  F1 mains: supply L N E
  E1 lamp: load L N { watts: 5 }
  W1: flex 0.75 10; BN F1.L E1.L; BU F1.N E1.N
  mode standby:
  mode heating:
  mode isolated:`);
const network = {
  ...plain,
  system: {
    ...plain.system,
    modes: { ...plain.system.modes, heating: { ...plain.system.modes.heating!, minutes: 3 } },
  },
  items: new Map(
    [...plain.items].map(([id, item]) => [
      id,
      { ...item, device: { ...item.device, access: { ...item.device.access, minutes: 6 } } },
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
const TESTS: readonly (readonly [Test, minutes: number, place: string | null])[] = [
  [{ id: 'l', kind: 'look', mode: 'standby', outcome: 'E1.lit' }, 0, null],
  [{ id: 'v', kind: 'live', mode: 'standby', pair }, 0.5, 'E1'],
  [{ id: 'd', kind: 'dead', mode: 'isolated', pair }, 0.5, 'E1'],
  [{ id: 'f', kind: 'fuse', mode: 'isolated', item: 'F1', branch: 'F1/fuse' }, 0.5, 'F1'],
];

// All of these figures: common practice, no source.
describe('the minutes of an act', () => {
  it.each(TESTS)('$kind: a look costs nothing, half a minute what is measured', (test, minutes) => {
    expect(baseMinutes(test)).toBe(minutes);
  });

  it.each(TESTS)('$kind is done where it is', (test, _, place) => {
    expect(placeOf(test)).toBe(place);
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

  it('of opening an item are its device’s', () => {
    expect([openingMinutes(network, 'E1'), openingMinutes(network, 'X9')]).toEqual([6, 0]);
  });
});
