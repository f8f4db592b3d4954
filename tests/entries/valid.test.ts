import { describe, expect, it } from 'vitest';
import {
  checkEntries,
  type Effects,
  loadEntries,
  provingProblems,
} from '../../src/entries/index.ts';
import { edited, inMemory, ROOT, textOf, valid } from './fixture.ts';

const { entries, problems, files } = checkEntries(ROOT, inMemory(valid));

describe('a valid content folder', () => {
  it('gives no problem', () => {
    expect(problems).toEqual([]);
    expect(files).toBe(14);
  });

  it('gives its entries by kind, in order of file name', () => {
    expect([...entries.systems.keys()]).toEqual(['lit-bench', 'plain-bench']);
    expect([...entries.devices.keys()]).toEqual([
      'bench-heater',
      'fused-switch',
      'house-supply',
      'joint-box',
      'lit-switch',
      'room-switch',
    ]);
    expect([...entries.symptoms.keys()]).toEqual(['stays-cold']);
    expect([...entries.procedures.keys()]).toEqual(['make-dead']);
    expect([...entries.standards.keys()]).toEqual(['small-fuse']);
    expect([...entries.glossary.keys()]).toEqual(['call', 'spur']);
    expect([...entries.modules.keys()]).toEqual(['bench-box']);
  });

  it('tells how far it is: each system as it is simulated, then as it is judged', () => {
    const told: [number, number][] = [];
    const step = (done: number, of: number) => void told.push([done, of]);
    checkEntries(ROOT, inMemory(valid), { step });
    expect(told).toEqual([1, 2, 3, 4].map((done) => [done, 4]));
  });

  it('says the same on disk as in memory', () => {
    const root = new URL('../fixtures/entries/valid', import.meta.url).pathname;
    const onDisk = loadEntries(root);
    expect(onDisk.problems).toEqual([]);
    expect(JSON.stringify([...onDisk.entries.systems])).toBe(JSON.stringify([...entries.systems]));
  });

  it('reads the body apart from the frontmatter', () => {
    expect(entries.systems.get('plain-bench')?.body).toBe('\nThe plainest arrangement there is.\n');
    expect(entries.systems.get('lit-bench')?.body).toBe('');
  });

  it('reads numeric keys as names', () => {
    expect(Object.keys(entries.devices.get('joint-box')!.data.terminals)).toEqual([
      '1',
      '2',
      '3',
      'E',
    ]);
  });
});

describe('an entry of the reference that nobody has checked or reviewed', () => {
  const folder = edited('systems/plain-bench.mdx', ['checked: 2025-03-01\n', '']);
  it('is in order, and is told of', () => {
    const checked = checkEntries(ROOT, inMemory(folder));
    expect(checked.problems).toEqual([]);
    expect(checked.warnings.map(({ file, code }) => [file, code])).toEqual([
      ['systems/plain-bench.mdx', 'review-missing'],
    ]);
  });

  it('is none where it says so, nor a device or a word', () => {
    expect(checkEntries(ROOT, inMemory(valid)).warnings).toEqual([]);
  });
});

describe('a body with components', () => {
  it('is valid where every terminal and mode is there, and keeps its text', () => {
    const prose =
      '<b>Line</b> at <Term at="E1.L" />: <Reading at="E1.L" mode="calling" />, across\n<Reading\n  at="S1.call feed"\n  to="S1.call return"\n  mode=\'standby\'\n/>.';
    const folder = edited('systems/plain-bench.mdx', ['The plainest arrangement there is.', prose]);
    const loaded = checkEntries(ROOT, inMemory(folder));
    expect(loaded.problems).toEqual([]);
    expect(loaded.entries.systems.get('plain-bench')?.body).toContain(prose);
  });

  it('takes a neutral against its earth and a line against its neutral', () => {
    const prose =
      '<Reading at="E1.N" mode="calling" /> <Reading at="E1.call feed" mode="calling" />';
    const folder = edited('systems/plain-bench.mdx', ['The plainest arrangement there is.', prose]);
    expect(loadEntries(ROOT, inMemory(folder)).problems).toEqual([]);
  });
});

describe('a symptom', () => {
  it('is not blamed for a system or device that its schema refuses', () => {
    const folder = edited('devices/bench-heater.mdx', ['letter: E', 'letter: EE']);
    const { problems: found } = checkEntries(ROOT, inMemory(folder));
    expect([...new Set(found.map(({ file }) => file))]).toEqual(['devices/bench-heater.mdx']);
  });

  it('counts a device that extends the one named', () => {
    const folder = edited('symptoms/stays-cold.mdx', [
      '{ family: isolation, fuse: blown }',
      '{ family: control, devices: [lit-switch], outcome: lit, is: false, modes: [calling] }',
    ]);
    expect(checkEntries(ROOT, inMemory(folder)).problems).toEqual([]);
  });
});

describe('the place of a value', () => {
  const plain = entries.systems.get('plain-bench')!;

  it.each([
    [['title'], 2, 8],
    [['items', 'S1', 'device'], 12, 17],
    [['cables', 'W2', 'cores', 'BU', 1], 29, 22],
    [['modes', 'calling', 'expect', 'E1.warm'], 49, 16],
  ])('%j is line %i, column %i', (path, line, column) => {
    expect(plain.locate(path)).toEqual({ line, column });
  });

  it('is that of the nearest enclosing key when nothing is written there', () => {
    expect(plain.locate(['cables', 'W2', 'cores', 'GY', 0])).toEqual({ line: 27, column: 5 });
    expect(plain.locate(['notes', 3])).toEqual({ line: 1, column: 1 });
    expect(plain.places.has(['notes'])).toBe(false);
  });
});

describe('a device that extends another', () => {
  const lit = entries.devices.get('lit-switch')!;
  const room = entries.devices.get('room-switch')!;

  it('has the other’s terminals and elements, then its own', () => {
    expect(Object.keys(lit.data.terminals)).toEqual(['call feed', 'call return', 'N']);
    expect(Object.keys(lit.data.elements)).toEqual(['call contact', 'lamp']);
    expect(lit.data.conditions).toEqual(room.data.conditions);
    expect(lit.data.openings).toEqual(room.data.openings);
    expect(lit.data.openings.front).toMatchObject({ title: 'snap-on front', minutes: 1 });
  });

  it('adds to lists and replaces single values', () => {
    expect(lit.data.aliases).toEqual(['knob', 'lamp knob']);
    expect(lit.data.cautions).toEqual(['Isolate before the cover comes off.']);
    expect(lit.data.title).toBe('Lit room switch');
    expect(room.data.title).toBe('Room switch');
  });

  it('keeps what the other states against a default of its own', () => {
    const folder = edited('devices/room-switch.mdx', [
      'letter: S',
      'letter: S\nprotection: class III',
    ]);
    const loaded = loadEntries(ROOT, inMemory(folder));
    expect(loaded.entries.devices.get('lit-switch')?.data.protection).toBe('class III');
  });

  it('knows in which file each value stands', () => {
    const place = (path: readonly PropertyKey[]) => {
      const { source, position } = lit.places.value(path);
      return [source.file, position.line, position.column];
    };
    expect(place(['elements', 'lamp', 'watts'])).toEqual(['devices/lit-switch.mdx', 10, 57]);
    expect(place(['elements', 'call contact', 'closed'])).toEqual([
      'devices/room-switch.mdx',
      12,
      77,
    ]);
    expect(place(['aliases', 0])).toEqual(['devices/room-switch.mdx', 5, 5]);
    expect(place(['aliases', 1])).toEqual(['devices/lit-switch.mdx', 5, 5]);
    expect(lit.locate(['aliases', 0])).toEqual({ line: 5, column: 5 });
  });

  it('may come three in a row, in any order of name', () => {
    const third = textOf('devices/lit-switch.mdx')
      .replace('extends: room', 'extends: lit')
      .replace('Lit', 'A third');
    const loaded = loadEntries(ROOT, inMemory({ ...valid, 'devices/a-switch.mdx': third }));
    expect(loaded.problems).toEqual([]);
    expect(loaded.entries.devices.get('a-switch')?.data.aliases).toEqual([
      'knob',
      'lamp knob',
      'lamp knob',
    ]);
  });
});

describe('entries with problems', () => {
  it('are left out, and so are the systems that use them', () => {
    const folder = edited('devices/lit-switch.mdx', ['{ energised: lamp }', '{ energised: lmp }']);
    const loaded = loadEntries(ROOT, inMemory(folder));
    expect(loaded.problems.map(({ file }) => file)).toEqual(['devices/lit-switch.mdx']);
    expect([...loaded.entries.systems.keys()]).toEqual(['plain-bench']);
    expect(loaded.entries.devices.has('lit-switch')).toBe(false);
    expect(loaded.entries.devices.has('room-switch')).toBe(true);
  });

  it('are left out when what they extend is wrong', () => {
    const folder = edited('devices/room-switch.mdx', ['closed: calling', 'closed: caling']);
    const loaded = loadEntries(ROOT, inMemory(folder));
    expect(loaded.entries.devices.has('lit-switch')).toBe(false);
  });
});

describe('a folder or file that cannot be read', () => {
  it('is a problem: no folder', () => {
    const nowhere: Effects = { list: () => undefined, read: () => new Uint8Array() };
    const loaded = loadEntries('nowhere', nowhere);
    expect(loaded.problems.map(({ code, file }) => [code, file])).toEqual([
      ['folder-missing', 'nowhere'],
    ]);
    expect(loadEntries('/nowhere/at/all').problems).toHaveLength(1);
  });

  it('is a problem: no permission', () => {
    const guarded: Effects = {
      ...inMemory(valid),
      read(file) {
        if (file.endsWith('spur.mdx')) throw new Error('EACCES: permission denied');
        return inMemory(valid).read(file);
      },
    };
    const loaded = loadEntries(ROOT, guarded);
    expect(loaded.problems.map(({ code, file }) => [code, file])).toEqual([
      ['term-unknown', 'glossary/call.mdx'],
      ['file-unreadable', 'glossary/spur.mdx'],
    ]);
  });

  it('is a problem: a circuit that the engine refuses', () => {
    const refused = provingProblems({ ...entries, devices: new Map() });
    expect(refused.map(({ code, file }) => [code, file])).toEqual([
      ['circuit-refused', 'systems/lit-bench.mdx'],
      ['circuit-refused', 'systems/plain-bench.mdx'],
    ]);
  });
});
