import { describe, expect, test } from 'vitest';
import { compared } from '../../src/comparing/compare.ts';
import { composedSide, entrySide } from '../../src/comparing/first-acts.ts';
import { compose } from '../../src/compose/index.ts';
import { simulated } from '../../src/composer/soundness.ts';
import { catalogue } from '../compose/catalogue.ts';
import { SPECIFICATIONS } from '../compose/specifications.ts';
import { parts } from '../composer/parts.ts';
import { systemForJob } from '../job/systems.ts';

const composedAs = (id: string) =>
  simulated(compose(SPECIFICATIONS[id]!, catalogue()), catalogue());
const entry = (id: string) => systemForJob(id).simulation;

describe('two systems side by side', () => {
  test.each(['combi-wireless', 'combi-two-wire', 'system-boiler-internal-pump'])(
    '%s and what is composed in its place do not differ',
    (id) => {
      const { equipment, conductors, modes, joinedAlike } = compared(entry(id), composedAs(id));
      expect({ equipment, conductors }).toEqual({ equipment: [], conductors: [] });
      expect(joinedAlike).toBeGreaterThan(3);
      // Where somebody wrote a mode with other conditions, that is said, and nothing else differs.
      expect(modes.filter(({ brought }) => brought === null)).toEqual([]);
    },
  );

  test('a mode that is written with other conditions says which', () => {
    const id = 'system-boiler-internal-pump';
    const [only, ...more] = compared(entry(id), composedAs(id)).modes;
    expect(more).toEqual([]);
    expect(only).toMatchObject({ title: 'Nothing calling', brought: { what: 'In this mode' } });
    expect(`${only!.brought!.a}${only!.brought!.b}`).toMatch(/cylinder/i);
  });

  test('a receiver in place of a stat is named on its side, with what it is joined to', () => {
    const { equipment, conductors, both } = compared(
      entry('combi-two-wire'),
      entry('combi-wireless'),
    );
    expect(both.join()).toContain('Combi boiler');
    const names = equipment.map(({ a, b }) => [a, b]);
    expect(names.some(([a, b]) => /stat/i.test(a!) && b === '')).toBe(true);
    expect(names.some(([a, b]) => a === '' && /receiver/i.test(b!))).toBe(true);
    const call = conductors.find(({ what }) => /switched live back/i.test(what))!;
    expect(call.a).toMatch(/B1/);
    expect(call.b).toMatch(/K1/);
  });

  test('an overflow switch in the supply shows in the mode that opens it', () => {
    const inSupply = { ...SPECIFICATIONS['combi-wireless-condensate-pump']! };
    const inCall = {
      ...inSupply,
      additions: [{ module: 'condensate-pump', variant: 'in call' }],
    };
    const [one, two] = [inSupply, inCall].map((each) =>
      simulated(compose(each, catalogue()), catalogue()),
    );
    const { equipment, modes } = compared(one!, two!);
    expect(equipment).toEqual([]);
    // The boiler has no display where its supply is cut; its supply reads otherwise there alone.
    const high = modes.find(({ title }) => title.startsWith('Condensate high'))!;
    expect(high.seen.some(({ a, b }) => /no display|dark/i.test(a) && /lit/i.test(b))).toBe(true);
    expect(high.readings.length).toBeGreaterThan(0);
    expect(modes.find(({ title }) => title === 'Nothing calling')).toBeUndefined();
  });

  test('what differs one way differs the other way', () => {
    const there = compared(entry('combi-wireless'), entry('combi-condensate-pump'));
    const back = compared(entry('combi-condensate-pump'), entry('combi-wireless'));
    const turned = back.equipment.map(({ what, a, b }) => JSON.stringify({ what, a: b, b: a }));
    expect(there.equipment.map((row) => JSON.stringify(row)).toSorted()).toEqual(turned.toSorted());
    expect(there.joinedAlike).toBe(back.joinedAlike);
    const counts = (modes: typeof there.modes) =>
      modes.map(({ title, seen, readings }) => [title, seen.length, readings.length]);
    expect(counts(there.modes)).toEqual(counts(back.modes));
  });

  test('the first act of an entry is that of its printed order; a composed one has one too', () => {
    const of = 'v=1&heat=combi-mains-call&heating=room-stat-two-wire';
    const one = entrySide(systemForJob('combi-two-wire').data, parts());
    const two = composedSide(of, parts());
    const id = 'no-heating-hot-water-works';
    expect(one.shows[id]).toEqual(two.shows[id]);
    expect(one.first(one.shows[id]!)).not.toBe('');
    expect(two.first(two.shows[id]!)).not.toBe('');
    expect(two.standing).toContain('No person has reviewed');
  });
});
