import { describe, expect, test } from 'vitest';
import { simulate, simulateAsFound } from '../../../src/circuit/index.ts';
import {
  AS_ENTRY,
  type AsFound,
  afterChange,
  agree,
  changesFor,
  coresOf,
  differencesOf,
  foundNetwork,
  hazardsOf,
  isAsEntry,
  problemWithFound,
  type RestoringChange,
  tidy,
} from '../../../src/wiring/as-found/index.ts';
import { coreEnds } from '../../../src/wiring/index.ts';
import { property, SEED } from '../../support/property.ts';
import { random } from '../../support/random.ts';
import { shippedSystem, shippedSystems } from '../../support/shipped.ts';
import { foundFrom } from './notation.ts';
import { randomFound } from './random-state.ts';

const restored = (network: Parameters<typeof tidy>[0], found: AsFound) =>
  tidy(
    network,
    changesFor(network, found).reduce(
      (state, change) => afterChange(network, state, change),
      found,
    ),
  );

describe.each(shippedSystems().map(({ id, network, simulation }) => ({ id, network, simulation })))(
  '$id: up to a dozen things otherwise at once',
  ({ network, simulation }) => {
    property('are in one order, described, and put right by their changes', 200, (from) => {
      const found = tidy(network, randomFound(network, from));
      expect(tidy(network, found)).toEqual(found);
      expect(problemWithFound(network, found)).toBeNull();
      expect(restored(network, found)).toEqual(AS_ENTRY);
      const said = differencesOf(network, found);
      expect(said.length === 0).toBe(isAsEntry(found));
      for (const { title } of said) expect(title).not.toMatch(/undefined|null|@/);
    });

    property('come to rest, in every mode, and their dangers are told', 6, (from) => {
      const circuit = foundNetwork(network, tidy(network, randomFound(network, from)));
      expect(simulateAsFound(circuit).modes.size).toBe(simulation.modes.size);
      for (const { title } of hazardsOf(simulate(circuit), simulation))
        expect(title).not.toMatch(/undefined|null|^$/);
    });
  },
);

test(`and one in five of them or more is dangerous, of 48 from seed ${SEED}`, () => {
  const systems = shippedSystems();
  const dangerous = Array.from({ length: 48 }, (_, i) => {
    const { network, simulation } = systems[i % systems.length]!;
    const circuit = foundNetwork(network, tidy(network, randomFound(network, random(SEED + i))));
    return hazardsOf(simulate(circuit), simulation).length > 0;
  });
  expect(dangerous.filter(Boolean).length).toBeGreaterThan(10);
});

test('a core with both ends in one terminal joins nothing and lies nowhere loose', () => {
  const { network, simulation } = shippedSystem('combi-two-wire');
  const found = foundFrom(network, 'W3.BU@1 > B1.NO');
  const without = foundFrom(network, 'W3.BU@1 > loose; W3.BU@2 > loose');
  const circuit = simulateAsFound(foundNetwork(network, found));
  expect(agree(circuit, simulateAsFound(foundNetwork(network, without)))).toBe(true);
  expect(hazardsOf(circuit, simulation)).toEqual([]);
});

/**
 * What a change takes: a core end handled once, a cable run anew with both ends of all its
 * cores, anything else one act.
 */
const costOf = ({ system }: Parameters<typeof tidy>[0], change: RestoringChange): number => {
  if (change.kind === 'exchange') return 2;
  return change.kind === 'cable' ? 2 * coresOf(system.cables[change.cable]!).length : 1;
};

/** What is otherwise, counted in the same coin. */
function amiss(network: Parameters<typeof tidy>[0], found: AsFound): number {
  const { system } = network;
  const anew = new Set([
    ...Object.keys(found.cables),
    ...found.ends.filter(({ point }) => point === 'short').map(({ cable }) => cable),
  ]);
  const cables = [...anew].reduce(
    (sum, cable) => sum + 2 * coresOf(system.cables[cable]!).length,
    0,
  );
  const { ends, missingLinks, extraLinks, bridged, absent, ratings } = found;
  const rest = [missingLinks, extraLinks, bridged, absent, Object.keys(ratings)];
  return (
    cables +
    ends.filter(({ cable }) => !anew.has(cable)).length +
    rest.reduce((sum, list) => sum + list.length, 0)
  );
}

describe('no list of changes takes less', () => {
  const { network } = shippedSystem('combi-condensate-pump');
  const { system } = network;
  const ends = coreEnds(system);
  const points = network.nodes.filter((node) => node.terminal).map(({ id }) => id);
  property('for no change puts more right than it takes', 12, (from) => {
    const found = tidy(network, randomFound(network, from));
    const own = changesFor(network, found);
    expect(own.reduce((sum, change) => sum + costOf(network, change), 0)).toBe(
      amiss(network, found),
    );
    // Every change there is but those nobody can make: an end too short reaches nowhere, and
    // a core that is not in its cable is put nowhere.
    const movable = ends.filter(({ cable, colour, end }) => {
      const marked = found.ends.find(
        (one) => one.cable === cable && one.colour === colour && one.end === end,
      );
      return marked?.point !== 'short' && (found.cables[cable]?.includes(colour) ?? true);
    });
    const changes: RestoringChange[] = [
      ...own,
      ...Object.keys(system.cables).map((cable) => ({ kind: 'cable' as const, cable })),
      ...movable.flatMap((end) =>
        [...points, 'loose'].map((to) => ({ kind: 'place' as const, end, from: '', to })),
      ),
      ...movable.flatMap((a, i) =>
        movable.slice(i + 1).map((b) => ({ kind: 'exchange' as const, ends: [a, b] as const })),
      ),
    ];
    for (const change of changes) {
      const after = tidy(network, afterChange(network, found, change));
      const better = amiss(network, found) - amiss(network, after);
      if (better > costOf(network, change)) expect([change, better]).toEqual([]);
    }
    expect(changes.length).toBeGreaterThan(400);
  });
});
