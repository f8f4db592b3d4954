import { describe, expect, test } from 'vitest';
import { simulate } from '../../src/circuit/index.ts';
import { storyOf } from '../../src/wiring/index.ts';
import { shippedNetworks } from '../support/content.ts';
import { circuit } from '../support/notation.ts';

const systems = [...shippedNetworks()].map(([id, network]) => [id, simulate(network)] as const);

describe.each(systems)('%s', (_, simulation) => {
  test('the first mode has no story; each other tells every contact that changes, once', () => {
    const { network, modes } = simulation;
    const [first, before] = [...modes][0]!;
    expect(storyOf(simulation, first)).toEqual([]);
    for (const [mode, now] of modes) {
      const told = storyOf(simulation, mode).flatMap(({ elements }) => elements);
      expect(new Set(told).size).toBe(told.length);
      const works = network.branches.filter(
        ({ id }) => before.state.energised.has(id) !== now.state.energised.has(id),
      );
      expect(told).toEqual(expect.arrayContaining(works.map(({ id }) => id)));
    }
  });
});

/** Two-port valves: call, motor, end switch, boiler (common practice, no source). */
test('a two-port valve is told in the order in which it works', () => {
  const simulation = new Map(systems).get('heat-only-two-port')!;
  const texts = storyOf(simulation, 'heating').map(({ text }) => text);
  const order = ['stat contact closes', 'valve motor', 'end switch closes', 'switched live input'];
  const places = order.map((said) => texts.findIndex((text) => text.includes(said)));
  expect(places).not.toContain(-1);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});

test('a contact that holds its own coil is told once', () => {
  const simulation = simulate(
    circuit(`
      F1 mains: supply L N E
      A1 start: contact L out { closed: pressed }
      A1 hold: contact L out { closed: { energised: coil } }
      A1 coil: load out N { watts: 2 }
      W1: flex 0.75 1; BN F1.L A1.L; BU F1.N A1.N
      mode rest:
      mode call: A1.pressed
    `),
  );
  const told = storyOf(simulation, 'call').flatMap(({ elements }) => elements);
  expect(told.toSorted()).toEqual(['A1/coil', 'A1/hold', 'A1/start']);
});

test('a mode that is not there is refused by name', () => {
  expect(() => storyOf(systems[0]![1], 'summer')).toThrow('has no mode summer');
});
