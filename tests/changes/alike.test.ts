import { expect, test } from 'vitest';
import { changesText, compareReferences } from '../../src/changes/index.ts';
import { BENCH, factsOf } from './bench.ts';

const bench = factsOf(BENCH);
type Facts = typeof bench;
type System = Facts['systems'] extends ReadonlyMap<string, infer S> ? S : never;
type Told = NonNullable<System['told']>;

const TOLD: Told = {
  faults: {
    open: { title: 'Coil open', who: 'engineer', hazard: null, repair: 'Renew the coil' },
    stuck: { title: 'Switch stuck', who: 'engineer', hazard: null, repair: 'Renew the switch' },
  },
  sequences: {},
  replacements: { 'knob by lamp knob': 'goes on as it is' },
};
/** The bench as a version of the program tells it: its entries are the same. */
const told = (tell: (system: System) => Told): Facts => ({
  ...bench,
  systems: new Map([...bench.systems].map(([id, one]) => [id, { ...one, told: tell(one) }])),
});
const before = told(() => TOLD);
const withFaults = (edit: (system: System, title: string) => object): Facts =>
  told((system) => ({
    ...TOLD,
    faults: Object.fromEntries(
      Object.entries(TOLD.faults).map(([id, fault]) => [
        id,
        { ...fault, ...edit(system, fault.title) },
      ]),
    ),
  }));
const ALL = [...before.systems.values()].map(({ title }) => title);

test('one cause behind many systems is one line, with the systems and what is otherwise in each', () => {
  expect(ALL.length).toBeGreaterThan(1);
  const after = withFaults(({ title }) => ({ repair: `Look at it in ${title}` }));
  const lines = compareReferences(before, after);
  expect(lines.map(({ kind, about, words }) => [kind, about.title, words])).toEqual([
    [
      'fault',
      'What is computed',
      `Faults that are looked for: otherwise in ${ALL.length} systems; nothing in the entries changed, so this comes of Proveline itself or of the visits that were counted`,
    ],
  ]);
  const [line] = lines;
  expect(line!.systems.map(({ title }) => title)).toEqual(ALL);
  expect(new Set(line!.follows.map(({ system }) => system))).toEqual(new Set(ALL));
  expect(changesText(lines)).toMatch(/so, in .*: Repair: now Look at it in/);
});

test('the same to the word is one line without more, and of one system alone it is its own', () => {
  const otherwise: Told = { ...TOLD, replacements: { 'knob by lamp knob': 'leaves a core over' } };
  const same = compareReferences(
    before,
    told(() => otherwise),
  );
  expect(same.map(({ about, words, follows }) => [about.title, words, follows])).toEqual([
    [
      'What is computed',
      expect.stringMatching(
        /^Replacement of knob by lamp knob: now leaves a core over.*; nothing in/,
      ),
      [],
    ],
  ]);
  const [first] = before.systems.values();
  const one = compareReferences(
    before,
    told(({ id }) => (id === first!.id ? otherwise : TOLD)),
  );
  expect(one.map(({ about }) => about.title)).toEqual([first!.title]);
});

test('what is dangerous stays by itself but where it is the same to the word', () => {
  const each = compareReferences(
    before,
    withFaults(({ title }) => ({ hazard: `Burns in ${title}` })),
  );
  expect(each.length).toBeGreaterThanOrEqual(ALL.length);
  for (const line of each) {
    expect(line.rank).toBe('danger');
    expect(line.systems).toHaveLength(1);
  }
  const [alike, ...others] = compareReferences(
    before,
    withFaults(() => ({ hazard: 'Burns' })),
  );
  expect(others).toEqual([]);
  expect([alike!.rank, alike!.systems.length]).toEqual(['danger', ALL.length]);
});
