import { describe, expect, it } from 'vitest';
import { compareReferences, KINDS, RANK_NAMES, SystemFacts } from '../../src/changes/index.ts';
import { systemData } from '../../src/data/index.ts';
import { KINDS as ENTRY_KINDS, jsonSchemaOf } from '../../src/entries/index.ts';
import type { Folder } from '../entries/fixture.ts';
import { shippedSystem } from '../support/shipped.ts';
import { BENCH, factsOf, withEdits } from './bench.ts';
import { EDITS } from './whole-edits.ts';

const before = factsOf(BENCH);
const linesOf = (folder: Folder) => compareReferences(before, factsOf(folder));
const told = (folder: Folder) =>
  linesOf(folder).map(({ rank, about, words }) => [rank, about.title, words]);

describe('an author’s edit is told once, as grave as it is', () => {
  it.each(EDITS)('%s: %s → %s', (file, from, to, rank, title, words) => {
    expect(told(withEdits([file, from, to]))).toEqual([
      [rank, title, expect.stringContaining(words)],
    ]);
  });
});

describe('what no reader acts on is no change', () => {
  const SWITCH = 'devices/fused-switch.mdx';
  const PLAIN = 'systems/plain-bench.mdx';
  it.each<[string, ...(readonly [string, string, string])[]]>([
    ['nothing at all'],
    ['a comment', [PLAIN, 'items:', '# The bench of old.\nitems: # four of them']],
    ['a comment in prose', [PLAIN, 'The plainest', '{/* of old */}The plainest']],
    [
      'keys in another order',
      [
        PLAIN,
        'kind: flex\n    size: 0.75\n    length: 2',
        'length: 2\n    size: 0.75\n    kind: flex',
      ],
    ],
    [
      'another spelling of the same YAML',
      [SWITCH, 'aliases:\n  - bench spur', "aliases: ['bench spur']"],
    ],
    [
      'prose wrapped otherwise',
      [
        'procedures/bench-dead-tests.mdx',
        'of their own. They are taken',
        'of their\nown.   They\nare taken',
      ],
    ],
    ['the day of a check', [PLAIN, 'checked: 2025-03-01', 'checked: 2026-03-01']],
    ['the author', [PLAIN, 'version: 1', 'author: A. Name\nversion: 1']],
    ['a default written out', [SWITCH, 'rating: 3', 'rating: 3, standard: BS 1362']],
    ['cautions in another order', ['devices/room-switch.mdx', '  - knob', '  - "knob"']],
  ])('%s', (_, ...edits) => {
    expect(told(withEdits(...edits))).toEqual([]);
  });

  it('entries in another order of their files', () => {
    expect(told(Object.fromEntries(Object.entries(BENCH).reverse()))).toEqual([]);
  });

  it('lists whose order says nothing', () => {
    const two = withEdits(['procedures/hand-over.mdx', 'cautions:\n', 'cautions:\n  - Mind it.\n']);
    const turned = withEdits([
      'procedures/hand-over.mdx',
      '  - The heater is hot to the touch for minutes.\n',
      '  - The heater is hot to the touch for minutes.\n  - Mind it.\n',
    ]);
    expect(compareReferences(factsOf(two), factsOf(turned))).toEqual([]);
  });
});

describe('one change', () => {
  it('of a device is one line, with every system that it is in', () => {
    const [line, ...others] = linesOf(
      withEdits(['devices/fused-switch.mdx', 'rating: 3', 'rating: 5']),
    );
    expect(others).toEqual([]);
    expect(line?.systems.map(({ id }) => id)).toEqual(['lit-bench', 'plain-bench']);
  });

  it('that a device has from another is told of that one, with the systems of both', () => {
    const [line, ...others] = linesOf(
      withEdits(['devices/room-switch.mdx', 'closed: calling', 'closed: { not: calling }']),
    );
    expect(others).toEqual([]);
    expect(line).toMatchObject({ about: { title: 'Room switch' }, rank: 'act' });
    expect(line?.systems.map(({ id }) => id)).toEqual(['plain-bench', 'lit-bench']);
    // What is seen and read otherwise follows from it, by system.
    expect(new Set(line?.follows.map(({ system }) => system))).toEqual(
      new Set(['Lit bench', 'Plain bench']),
    );
    expect(line?.follows.map(({ words }) => words)).toContainEqual(
      expect.stringMatching(
        /^“Heater warms” at Bench heater E1: now so, was not so \(Nobody calls/,
      ),
    );
  });

  it('of the wiring has what is read otherwise under it', () => {
    const [line, ...others] = linesOf(
      withEdits([
        'systems/plain-bench.mdx',
        '[E1.call feed, S1.call feed]',
        '[E1.N, S1.call feed]',
      ]),
    );
    expect(others).toEqual([]);
    expect(line?.rank).toBe('danger');
    expect(line?.follows.length).toBeGreaterThan(3);
  });

  it('of a step is one step, though the others count otherwise', () => {
    expect(
      told(
        withEdits([
          'procedures/hand-over.mdx',
          'steps:\n',
          'steps:\n  - do: Ask who works on the bench.\n',
        ]),
      ),
    ).toEqual([['act', 'Hand the bench over', 'New step 1: “Ask who works on the bench.”']]);
  });

  it('of the order of steps is the step that moved', () => {
    const [first, second] = [
      '  - do: Null the leads of the meter against one another.\n',
      '  - do: Read each core from end to end.\n    expect: Less than half an ohm.\n',
    ];
    const lines = told(
      withEdits(['procedures/bench-dead-tests.mdx', first + second, second + first]),
    );
    expect(lines).toEqual([
      ['danger', 'Test the bench dead', expect.stringContaining('comes in another place')],
    ]);
  });

  it('of a caution of the house is told of the firm', () => {
    const lines = compareReferences(before, factsOf(BENCH, ['Nobody works alone.']));
    expect(lines).toMatchObject([
      {
        rank: 'danger',
        about: { title: 'The bench' },
        words: 'Caution of the house added: “Nobody works alone.”',
      },
    ]);
  });
});

describe('entries that came, went or are called otherwise', () => {
  const without = (...files: string[]) =>
    Object.fromEntries(Object.entries(BENCH).filter(([file]) => !files.includes(file)));

  it.each([
    ['standards/small-fuse.mdx', 'danger', 'House standard'],
    ['procedures/bench-dead-tests.mdx', 'danger', 'Procedure'],
    ['procedures/hand-over.mdx', 'act', 'Procedure'],
    ['standards/tidy.mdx', 'know', 'House standard'],
    ['symptoms/knob-dark.mdx', 'act', 'Complaint'],
    ['devices/guard.mdx', 'act', 'Device'],
  ])('%s withdrawn', (file, rank, kind) => {
    expect(told(without(file))).toEqual([[rank, expect.any(String), `${kind} withdrawn`]]);
  });

  it('added, and a system with all its wiring in one line', () => {
    const small = factsOf(without('devices/guard.mdx', 'systems/lit-bench.mdx'));
    expect(
      compareReferences(small, before).map(({ rank, about, words }) => [rank, about.title, words]),
    ).toEqual([
      ['know', 'Guard', 'Device added'],
      ['know', 'Lit bench', 'System added'],
    ]);
    expect(compareReferences(before, small).map(({ rank, words }) => [rank, words])).toEqual([
      ['act', 'Device withdrawn'],
      ['act', 'System withdrawn'],
    ]);
  });

  it('renamed are the same, under the name of now', () => {
    const { 'devices/guard.mdx': guard, 'systems/plain-bench.mdx': plain, ...rest } = BENCH;
    const renamed = (text: unknown, name: string) =>
      String(text).replace('---\n', `---\nformerly: [${name}]\n`);
    expect(
      told({
        ...rest,
        'devices/hot-guard.mdx': renamed(guard, 'guard'),
        'systems/bare-bench.mdx': renamed(plain, 'plain-bench'),
      }),
    ).toEqual([]);
  });
});

describe('faults, sequences and replacements', () => {
  const data = JSON.parse(JSON.stringify(systemData(shippedSystem('combi-two-wire'))));
  const facts = (edit: (draft: typeof data) => void = () => {}) => {
    const draft = structuredClone(data);
    edit(draft);
    return { systems: new Map([['combi-two-wire', SystemFacts.parse(draft)]]) };
  };
  const changed = (edit: (draft: typeof data) => void) =>
    compareReferences(facts(), facts(edit)).map(({ rank, words }) => [rank, words]);

  it('that are the same are no change', () => {
    expect(changed(() => {})).toEqual([]);
  });

  it.each<[string, (draft: typeof data) => void, string, string]>([
    [
      'another who may repair',
      (d) => {
        d.diagnosis.faults[0].who = 'electrician';
      },
      'danger',
      'Who may repair it: now electrician',
    ],
    [
      'another danger',
      (d) => {
        d.diagnosis.faults[0].hazard = 'It burns.';
      },
      'danger',
      'What danger it makes: now It burns.',
    ],
    [
      'another repair',
      (d) => {
        d.diagnosis.faults[0].repair = 'Leave it.';
      },
      'act',
      'Repair: now Leave it.',
    ],
    [
      'a fault more',
      (d) => {
        d.diagnosis.faults.push({ ...d.diagnosis.faults[0], id: 'new', title: 'A new one' });
      },
      'act',
      'May now be wrong: A new one',
    ],
    [
      'a fault less',
      (d) => {
        d.diagnosis.faults.pop();
      },
      'act',
      'No longer among the faults: ',
    ],
    [
      'another first act',
      (d) => {
        d.sequences.find((s: { id: string }) => s.id === 'boiler-ignores-call').steps[0].test =
          'look:E1.display@standby';
      },
      'act',
      'begins with: now look for “',
    ],
    [
      'other ends',
      (d) => {
        for (const s of d.sequences) if (s.id === 'boiler-ignores-call') s.ends[0].faults = ['x'];
      },
      'act',
      'ends with other faults left together',
    ],
    [
      'another verdict',
      (d) => {
        d.replacements[0].verdict = 'never';
      },
      'act',
      'Replacement of Q1 by fused-connection-unit: now never, was equal',
    ],
  ])('%s', (_, edit, rank, words) => {
    expect(changed(edit)).toEqual([[rank, expect.stringContaining(words)]]);
  });
});

it('every kind has one of three ranks, with a reason', () => {
  for (const { rank, because } of Object.values(KINDS)) {
    expect(RANK_NAMES).toContain(rank);
    expect(because).toMatch(/^[A-Z].{20,}[^.]$/);
  }
});

it('knows every field that an entry may have by its own name', async () => {
  const { ENTRY_FIELDS } = await import('../../src/changes/entry-fields.ts');
  // Told for every kind, or by the schema of open data left out of it.
  const apart = [
    'title',
    'formerly',
    'author',
    'replaces',
    'cables',
    'compose',
    'version',
    'links',
  ];
  for (const [kind, { folder }] of Object.entries(ENTRY_KINDS)) {
    const fields = ENTRY_FIELDS[folder];
    if (!fields) continue;
    const { properties } = jsonSchemaOf(kind as keyof typeof ENTRY_KINDS);
    const unknown = Object.keys(properties ?? {}).filter(
      (name) => !fields[name] && !apart.includes(name),
    );
    expect([folder, unknown]).toEqual([folder, []]);
  }
});
