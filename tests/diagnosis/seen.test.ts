import { describe, expect, it } from 'vitest';
import type { Symptom } from '../../schemas/index.ts';
import { blownInAll, causesIn, HISTORIES, seenInAll, seenWith } from '../../src/diagnosis/index.ts';
import { startsOf } from '../../src/diagnosis/sequences/index.ts';
import { ids, shipped, symptoms } from '../support/signatures.ts';

const seenIn = (symptom: Pick<Symptom, 'shows'>, id: string) => {
  const { simulation, signatures } = shipped(id);
  const causes = causesIn(symptom, { simulation, signatures });
  return causes ? seenWith(symptom, causes, simulation.network, signatures) : null;
};

describe('what is seen for certain where a symptom is', () => {
  it('a combi without heating: cold radiators and a hot tap', () => {
    expect(seenIn(symptoms.get('no-heating-hot-water-works')!, 'combi-two-wire')).toEqual([
      { outcome: 'E1.radiators', mode: 'heating', answer: 'not seen' },
      { outcome: 'E1.hot tap', mode: 'hot-tap', answer: 'seen' },
    ]);
  });

  it.each(ids)(
    '%s: every fault behind a symptom shows all of it, and the sound circuit not',
    (id) => {
      const { simulation, signatures } = shipped(id);
      const place = new Map(signatures.tests.map((test, i) => [test.id, i]));
      let some = 0;
      for (const [name, symptom] of symptoms) {
        const causes = causesIn(symptom, { simulation, signatures });
        if (!causes || causes.groups.length === 0) continue;
        const seen = seenWith(symptom, causes, simulation.network, signatures);
        const all = new Set(causes.groups.flatMap(({ faults }) => faults.map((fault) => fault.id)));
        for (const { fault, answers } of signatures.faults.filter((one) => all.has(one.fault.id))) {
          for (const { outcome, mode, answer } of seen)
            expect(answers[place.get(`look:${outcome}@${mode}`)!], `${name}: ${fault.id}`).toBe(
              answer,
            );
        }
        some += seen.length;
      }
      expect(some).toBeGreaterThan(5);
    },
  );

  it('of two ways to show it only what both share', () => {
    const { shows } = symptoms.get('no-heating-hot-water-works')!;
    const [combi] = shows;
    const other = {
      signs: [
        combi!.signs[0]!,
        { family: 'boiler', outcome: 'display', is: true, modes: ['heating'] } as const,
      ],
    };
    expect(seenIn({ shows: [combi!, other] as typeof shows }, 'combi-two-wire')).toEqual([
      { outcome: 'E1.radiators', mode: 'heating', answer: 'not seen' },
    ]);
  });

  it.each(ids)(
    '%s: a complaint’s page tells a visit what its published sequence tells one',
    (id) => {
      const { simulation, signatures } = shipped(id);
      for (const history of HISTORIES.slice(0, 2)) {
        const starts = startsOf(symptoms, simulation.network, signatures, history);
        const named = starts.filter((start) => symptoms.has(start.id));
        expect(named.length).toBeGreaterThan(5);
        for (const { id: symptom, shows } of named)
          expect([symptom, seenInAll(shows, signatures.tests)]).toEqual([
            symptom,
            seenIn(symptoms.get(symptom)!, id),
          ]);
      }
    },
  );

  it('of a fuse nothing: nobody has it in the hand yet', () => {
    for (const id of ids) expect(seenIn(symptoms.get('fuse-blows')!, id) ?? []).toEqual([]);
  });

  it('of a start what all its ways of being known share: looks, and fuses that have blown', () => {
    const { simulation, signatures } = shipped('combi-two-wire');
    const { tests } = signatures;
    const starts = startsOf(symptoms, simulation.network, signatures);
    const of = (id: string) => starts.find((start) => start.id === id)!.shows;
    expect(seenInAll(of('no-heating-hot-water-works'), tests)).toEqual(
      seenIn(symptoms.get('no-heating-hot-water-works')!, 'combi-two-wire'),
    );
    expect(blownInAll(of('no-heating-hot-water-works'), tests)).toEqual([]);
    expect(seenInAll(of('fuse-blows'), tests)).toEqual([]);
    expect(blownInAll(of('fuse-blows'), tests)).toEqual(['Q1/fuse']);
    // All looks at once, and nothing where nobody has looked.
    expect(seenInAll(of('nothing-seen'), tests)).toHaveLength(
      tests.filter(({ kind }) => kind === 'look').length,
    );
    expect(seenInAll(of('anything'), tests)).toEqual([]);
    // Of one fuse or the other neither is known to have blown.
    const [spur, board] = [0, 1].map((test) => [{ test, answer: 'blown' as const }]);
    const fuses = tests.filter(({ kind }) => kind === 'fuse').slice(0, 1);
    expect(blownInAll([spur!, board!], [...fuses, ...fuses])).toEqual([]);
    expect(blownInAll([spur!, spur!], fuses)).toEqual(['Q1/fuse']);
    expect(blownInAll([], tests)).toEqual([]);
  });
});
