import { describe, expect, it } from 'vitest';
import { compareBuilds, compareSystems, SystemFacts } from '../../src/changes/index.ts';
import { CASES, COMBI, core, TWO_PORT } from './cases.ts';
import { type Draft, edited } from './edits.ts';

const facts = (id: string, edit?: (draft: Draft) => void) =>
  SystemFacts.parse(JSON.parse(JSON.stringify(edited(id, edit))));

describe.each(CASES)('$name', ({ system, edit, changes, effects }) => {
  const found = compareSystems(facts(system), facts(system, edit));
  it('is told as what was changed, and nothing else', () => {
    expect(found.changes.map(({ words }) => words)).toEqual(changes);
  });
  it('is told with what it does', () => {
    expect(found.effects.map(({ words }) => words)).toEqual(expect.arrayContaining([...effects]));
  });
});

describe('what is no change of the circuit', () => {
  const reversed = <T>(record: Record<string, T>) =>
    Object.fromEntries(Object.entries(record).reverse());
  it.each([COMBI, TWO_PORT])('%s in another order', (id) => {
    const found = compareSystems(
      facts(id),
      facts(id, ({ system }) => {
        system.items = reversed(system.items);
        system.modes = id === COMBI ? reversed(system.modes) : system.modes;
        system.cables = Object.fromEntries(
          Object.entries(system.cables)
            .reverse()
            .map(([name, cable]) => [
              name,
              {
                ...cable,
                cores: Object.fromEntries(
                  Object.entries(cable.cores)
                    .reverse()
                    .map(
                      ([
                        colour,
                        {
                          ends: [a, b],
                          sleeve,
                        },
                      ]) => [colour, { ends: [b, a], sleeve }],
                    ),
                ),
              },
            ]),
        ) as typeof system.cables;
      }),
    );
    expect(found).toMatchObject({ changes: [], effects: [] });
  });

  it.each([COMBI, TWO_PORT])('%s in other words', (id) => {
    const found = compareSystems(
      facts(id),
      facts(id, ({ system, devices }) => {
        system.title = 'Another title';
        system.notes = [];
        for (const item of Object.values(system.items))
          Object.assign(item, { title: 'Thing', place: 'There', labels: {} });
        for (const mode of Object.values(system.modes))
          mode.title = `${mode.title}, in other words`;
        for (const device of Object.values(devices)) {
          device.title = 'Device';
          for (const element of Object.values(device.elements)) element.name = 'part';
          for (const outcome of Object.values(device.outcomes)) outcome.title = 'Seen';
          for (const condition of Object.values(device.conditions)) condition.title = 'So';
        }
      }),
    );
    expect(found).toMatchObject({ changes: [], effects: [] });
  });

  it('a device entry under another id that describes the same equipment', () => {
    const found = compareSystems(
      facts(COMBI),
      facts(COMBI, ({ system, devices }) => {
        devices['our-control'] = devices['room-control-two-wire']!;
        system.items.B1!.device = 'our-control';
      }),
    );
    expect(found).toMatchObject({ changes: [], effects: [] });
  });
});

it('two builds: a system that was renamed is the same system', () => {
  const was = new Map([['of-old', { ...facts(COMBI), id: 'of-old' }]]);
  const now = (edit: Parameters<typeof facts>[1]) =>
    new Map([[COMBI, { ...facts(COMBI, edit), formerly: ['older', 'of-old'] }]]);
  const none = { added: [], removed: [] };
  expect(compareBuilds(was, now(undefined))).toMatchObject({ ...none, same: [{ id: COMBI }] });
  expect(
    compareBuilds(
      was,
      now((d) => core(d, 'W3', 'BN', ['E1.L', 'B1.COM'])),
    ),
  ).toMatchObject({ ...none, changed: [{ id: COMBI }] });
});

it('two builds: what came, what went, what changed, what did not', () => {
  const before = new Map([COMBI, TWO_PORT].map((id) => [id, facts(id)]));
  const after = new Map([
    [COMBI, facts(COMBI, (d) => core(d, 'W3', 'BN', ['E1.L', 'B1.COM']))],
    ['combi-wireless', facts('combi-wireless')],
  ]);
  const found = compareBuilds(before, after);
  expect(found.added.map(({ id }) => id)).toEqual(['combi-wireless']);
  expect(found.removed.map(({ id }) => id)).toEqual([TWO_PORT]);
  expect(found.changed.map(({ id }) => id)).toEqual([COMBI]);
  expect(compareBuilds(before, before)).toMatchObject({ changed: [], added: [], removed: [] });
});
