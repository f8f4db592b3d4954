import { expect, test } from 'vitest';
import { HISTORIES } from '../../src/diagnosis/index.ts';
import { type Observation, questionKey, questionOf } from '../../src/diagnosis/inference/index.ts';
import { Engine, type Request } from '../../src/job/engine.ts';
import { systemForJob } from './systems.ts';

const request = (history: Request['history'], ...found: Observation[]): Request => ({
  history,
  cannot: [],
  entries: found.map((observation, i) => ({ id: `e${i}`, observation })),
  mode: 'isolated',
  pairs: false,
});
const SINCE_WORK = HISTORIES.find((one) => one === 'since work')!;

test.each(['combi-two-wire', 'heat-only-mid-position', 'heat-only-condensate-pump'])(
  '%s: whoever looked and found something says which of all that shows there, by its cores',
  (id) => {
    const { simulation, signatures, data } = systemForJob(id);
    const engine = new Engine(data, simulation);
    const acts = signatures.tests.flatMap((test) =>
      test.kind === 'act' && ['inside', 'compare'].includes(test.act) ? test : [],
    );
    expect(acts.length).toBeGreaterThan(3);
    for (const act of acts) {
      const at = signatures.tests.indexOf(act);
      const shows = signatures.faults.filter(({ answers }) => answers[at] === 'found');
      const look: Observation = { kind: 'act', mode: 'isolated', id: act.id, answer: 'found' };
      const { found, repairs, foundThere } = engine.find(request(SINCE_WORK, look));
      const named = found ? [repairs[0]!] : foundThere.map(({ repair }) => repair);
      expect(named.map(({ key }) => key).toSorted()).toEqual(
        [...new Set(shows.map(({ fault }) => fault.repairKey))].toSorted(),
      );
      for (const { repair, cores } of foundThere) {
        const title = repair.causes[0]!.title.toLowerCase();
        // What is at a core says so in its title, by the same words.
        const isSaid = cores.some(
          ({ cable, core }) => title.includes(core) || title.includes(cable.toLowerCase()),
        );
        if (cores.length > 0) expect([title, isSaid]).toEqual([title, true]);
        else expect(title).not.toMatch(/(?:brown|blue|black|grey|orange|white|yellow) core/);
      }
    }
  },
);

test('nothing is asked once something else was entered, nor where nothing was seen', () => {
  const { simulation, signatures, data } = systemForJob('combi-two-wire');
  const engine = new Engine(data, simulation);
  const id = signatures.tests.find((one) => one.kind === 'act' && one.act === 'inside')!.id;
  const look = (answer: 'found' | 'nothing'): Observation => ({
    kind: 'act',
    mode: 'isolated',
    id,
    answer,
  });
  const seen: Observation = {
    kind: 'look',
    mode: 'heating',
    outcome: 'E1.display',
    answer: 'seen',
  };
  const there = (...found: Observation[]) =>
    engine.find(request(SINCE_WORK, ...found)).foundThere.length;
  expect(there(look('found'))).toBeGreaterThan(0);
  expect(there(seen, look('found'))).toBeGreaterThan(0);
  expect(there(look('found'), seen)).toBe(0);
  expect(there(look('nothing'))).toBe(0);
  expect(questionKey(questionOf(look('found')))).toBe(questionKey(questionOf(look('nothing'))));
});
