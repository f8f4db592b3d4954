import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { checkEntries, type Effects, fileSystem } from '../../src/entries/index.ts';

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));

/** The project's content with one more system. */
function withSystem(text: string): Effects {
  const path = `${CONTENT}/systems/of-parts.mdx`;
  return {
    list: (folder) => {
      const listed = fileSystem.list(folder);
      const more = { name: 'of-parts.mdx', folder: false };
      return folder === `${CONTENT}/systems` ? [...listed!, more] : listed;
    },
    read: (file) => (file === path ? new TextEncoder().encode(text) : fileSystem.read(file)),
  };
}

/** What is found in the added entry, and the entry. */
function checked(text: string) {
  const { entries, problems } = checkEntries(CONTENT, withSystem(text), { today: '2026-12-01' });
  return {
    system: entries.systems.get('of-parts')?.data,
    problems: problems
      .filter(({ file }) => file === 'systems/of-parts.mdx')
      .map(
        ({ position, code, message }) => `${position.line}:${position.column} ${code}: ${message}`,
      ),
  };
}

const FROST = `---
title: System boiler with a zone and frost stats
compose:
  heat: system-boiler
  heating: [{ controls: [room-stat-wired], valve: two-port-valve }]
  additions: [{ module: frost-pair, variant: fed from the live }]
summary: One zone, called by a room stat or by frost.
items:
  B1: { device: room-thermostat-wired, place: Hall }
checked: "2026-11-29"
version: 2
---

Frost opens the valve first.
`;

describe('a system that is composed', () => {
  it('is an entry like any other: simulated, judged, in order', () => {
    const { system, problems } = checked(FROST);
    expect(problems).toEqual([]);
    expect(Object.keys(system!.items)).toEqual(['F1', 'Q1', 'X1', 'E1', 'B1', 'Q2', 'B2', 'B3']);
    expect(Object.keys(system!.modes)).toContain('frost');
    expect(system!.compose?.heat).toBe('system-boiler');
  });

  it('is what the entry itself says, key by key', () => {
    const { system } = checked(FROST);
    expect(system!.summary).toBe('One zone, called by a room stat or by frost.');
    expect(system!.items.B1!.place).toBe('Hall');
    expect(system!.items.E1!.place).toBe('Kitchen wall or utility room');
    expect(system!.version).toBe(2);
  });

  it('is known by its own cues, and by those of its parts where it has none', () => {
    const ofParts = checked(FROST).system!.recognise;
    expect(ofParts.length).toBeGreaterThan(3);
    const own = 'recognise: [Two small stats in the garage]\nchecked:';
    expect(checked(FROST.replace('checked:', own)).system!.recognise).toEqual([
      'Two small stats in the garage',
    ]);
  });

  it('is told of a module that is not there, at the composition', () => {
    const { system, problems } = checked(
      FROST.replace('heat: system-boiler', 'heat: sistem-boiler'),
    );
    expect(system).toBeUndefined();
    expect(problems).toEqual([
      '4:9 composition-refused: nothing composes this: sistem-boiler: a name that no module bears, or one that stands in another place',
    ]);
  });

  it('is told of a key that a composition does not have', () => {
    const { problems } = checked(FROST.replace('  heat: system-boiler', '  boiler: system-boiler'));
    expect(problems).toEqual([
      '3:1 value-missing: “compose” has no “heat”',
      '4:3 key-unknown: “boiler” is no key here',
    ]);
  });

  it('is told of what its circuit does otherwise, as any entry', () => {
    const { problems } = checked(
      FROST.replace(
        'items:',
        'modes:\n  frost:\n    title: Frost\n    conditions: { B2.frost: true, B3.pipe cold: true }\n    expect: { E1.burner: false }\nitems:',
      ),
    );
    expect(problems).toEqual([
      '12:26 expectation-differs: in mode “Frost” this expects “Boiler not firing”; the circuit gives “Boiler firing”',
    ]);
  });
});
