import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { System } from '../../schemas/index.ts';
import { buildNetwork, type Network } from '../../src/circuit/index.ts';
import { frontmatterOf, loadEntries } from '../../src/entries/index.ts';
import { reportsByEntry, variantText, wiringMet } from '../../src/field/index.ts';
import { AS_ENTRY, type AsFound, foundLink, foundSystem } from '../../src/wiring/as-found/index.ts';
import { CONTENT } from '../firm/memory.ts';
import { REPORT, VISIT } from './hostile-files.ts';

const ID = 'heat-only-two-port';
const { entries } = loadEntries(CONTENT);
const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
const network = buildNetwork(ID, entries.systems.get(ID)!.data, devices);
const networkOf = (id: string): Network | undefined => (id === ID ? network : undefined);

/** Two cores of one cable crossed at its far end. */
function crossed(): AsFound {
  const [cable, { cores }] = Object.entries(network.system.cables).find(
    ([, one]) => Object.keys(one.cores).length >= 3,
  )!;
  const [[a, first], [b, second]] = Object.entries(cores) as [
    ['BN', { ends: [string, string] }],
    ['BU', { ends: [string, string] }],
  ];
  return {
    ...AS_ENTRY,
    ends: [
      { cable, colour: a, end: 1, point: second.ends[1] },
      { cable, colour: b, end: 1, point: first.ends[1] },
    ],
  };
}
const marks = `as=${foundLink(network, crossed())}`;
const visit = (name: string, asFound: string | null) => ({
  name,
  file: { ...VISIT, acts: [...VISIT.acts], system: ID, asFound },
});
const report = (name: string, page: string, asFound: string | null) => ({
  name,
  file: { ...REPORT, page, asFound },
});

describe('wiring met otherwise', () => {
  const { met, unread } = wiringMet(
    {
      visits: [visit('a', marks), visit('b', null), visit('c', 'as=abc.def')],
      reports: [
        report('d', `systems/${ID}/as-found/`, marks),
        report('e', 'devices/room-thermostat/', marks),
      ],
    },
    networkOf,
  );

  test('is told once with how often, from visits and reports alike', () => {
    expect(met.map(({ system, times }) => [system, times])).toEqual([[ID, 2]]);
    expect(met[0]!.differences).toEqual([expect.stringMatching(/crossed/)]);
  });

  test('marks that cannot be read are said with their file', () => {
    expect(unread.map(({ name }) => name)).toEqual(['c']);
  });

  test('becomes a draft whose cables are as they were found, with what differs above it', () => {
    const from = readFileSync(join(CONTENT, 'systems', `${ID}.mdx`), 'utf8');
    const text = variantText(from, network, met[0]!);
    const written = frontmatterOf(text);
    expect(written.title).toBe(`${network.system.title}, as found 2 times`);
    for (const key of ['review', 'checked', 'exceptions', 'aliases'])
      expect(Object.hasOwn(written, key)).toBe(false);
    const cables = System.shape.cables.parse(written.cables);
    expect(cables).toEqual(foundSystem(network.system, crossed()).cables);
    expect(text).toMatch(/^---\n# Draft: heat-only-two-port as it was found 2 times/);
    // Every line above the entry is a comment: nothing from the field is YAML or MDX.
    const [head = ''] = text.split('\ntitle:');
    expect(
      head
        .split('\n')
        .slice(1)
        .every((line) => line.startsWith('#')),
    ).toBe(true);
  });
});

test('reports are told by entry, those most often reported first', () => {
  const told = reportsByEntry([
    report('a', 'devices/room-thermostat/', null),
    report('b', `systems/${ID}/`, null),
    report('c', `systems/${ID}/readings/`, null),
  ]);
  expect(told.map(({ entry, reports }) => [entry, reports.length])).toEqual([
    [`systems/${ID}`, 2],
    ['devices/room-thermostat', 1],
  ]);
});
