import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addEntry, addRepair, type Job, lookAt, newJob, setLook } from '../../src/job/job.ts';
import {
  fewest,
  isProved,
  modesOfRepair,
  provingModes,
  setAsDue,
  supplyReadings,
  turnAstray,
} from '../../src/job/proving.ts';
import { pointIn } from '../../src/job/sheet.ts';
import { systemFiles } from '../support/content.ts';
import { systemForJob } from './systems.ts';

const { sheet } = systemForJob('heat-only-condensate-pump').engine;
const begun = (): Job =>
  newJob(
    { id: sheet.id, title: sheet.title, wiring: sheet.wiring, mode: 'heating' },
    { name: '', place: '' },
  );
const modeOf = (job: Job, id: string) =>
  provingModes(sheet, job).find(({ mode }) => mode.id === id)!;

describe('the fewest modes that prove a repair', () => {
  test('hold all that was astray, and no smaller choice of modes does', () => {
    const sets = fc.array(fc.uniqueArray(fc.integer({ min: 0, max: 6 })), { maxLength: 7 });
    fc.assert(
      fc.property(sets, (lists) => {
        const map = new Map(lists.map((list, i) => [`m${i}`, new Set(list.map(String))]));
        const all = new Set(lists.flat().map(String));
        const holds = (names: readonly string[]) =>
          [...all].every((thing) => names.some((name) => map.get(name)!.has(thing)));
        const found = fewest(map);
        expect(holds(found)).toBe(true);
        // Every choice there is, by counting in twos.
        const names = [...map.keys()];
        for (let bits = 0; bits < 2 ** names.length; bits++) {
          const choice = names.filter((_, i) => (bits >> i) & 1);
          if (holds(choice)) expect(choice.length).toBeGreaterThanOrEqual(found.length);
        }
      }),
    );
  });

  test('are those in which it was astray: one of two that showed the same, none that showed it right', () => {
    let job = setLook(begun(), 'heating', 'E1.burner', 'not seen');
    job = setLook(job, 'both', 'E1.burner', 'not seen');
    job = setLook(job, 'both', 'Q2.open', 'not seen');
    job = setLook(job, 'hot-water', 'E1.burner', 'seen');
    expect(modesOfRepair(sheet, job, () => undefined)).toEqual([]);
    expect(modesOfRepair(sheet, addRepair(job, 'x'))).toEqual(['both']);
  });

  test('count a reading that was not what a sound system reads', () => {
    const read = addEntry(begun(), {
      kind: 'live',
      mode: 'hot-water',
      from: 'X1.7',
      to: 'X1.N',
      instrument: 'tester',
      answer: 'dead',
    });
    const mended = addRepair(read, 'x');
    expect(modesOfRepair(sheet, mended, () => 'live')).toEqual(['hot-water']);
    expect(modesOfRepair(sheet, mended, () => 'dead')).toEqual([]);
  });

  test('hold one in which the mended cause would have shown, and no more for it', () => {
    const shownIn = (...modes: string[]) => Object.assign(() => undefined, { shownIn: modes });
    // Found by a dead test: nothing was seen astray.
    const dead = addRepair(begun(), 'x');
    expect(modesOfRepair(sheet, dead, shownIn('heating', 'both'))).toEqual(['heating']);
    expect(modesOfRepair(sheet, dead, shownIn())).toEqual([]);
    // What was seen astray proves it already where the cause shows there.
    const seen = addRepair(setLook(begun(), 'both', 'E1.burner', 'not seen'), 'x');
    expect(modesOfRepair(sheet, seen, shownIn('heating', 'both'))).toEqual(['both']);
    expect(modesOfRepair(sheet, seen, shownIn('heating'))).toEqual(['heating', 'both']);
    expect(modesOfRepair(sheet, begun(), shownIn('heating'))).toEqual([]);
  });

  test('forget what was astray before an earlier look was put right', () => {
    let job = setLook(begun(), 'heating', 'E1.burner', 'not seen');
    job = setLook(job, 'heating', 'E1.burner', 'seen');
    expect(modesOfRepair(sheet, addRepair(job, 'x'))).toEqual([]);
  });
});

test('modes stand in order: the repair’s own, those of safety devices, the rest', () => {
  const job = addRepair(setLook(begun(), 'heating', 'E1.burner', 'not seen'), 'x');
  const modes = provingModes(sheet, job);
  expect(modes.map(({ mode, purpose }) => [mode.id, purpose])).toEqual([
    ['heating', 'repair'],
    ['standby', 'safety'],
    ['satisfied', 'safety'],
    ['condensate-high', 'safety'],
    ['hot-water', 'rest'],
    ['both', 'rest'],
    ['pumping', 'rest'],
  ]);
});

describe('safety devices that a mode proves', () => {
  const safety = (id: string) => sheet.modes.find((mode) => mode.id === id)!.safety;

  // Common practice, no source: the overflow switch is proved by making it act, the interlock
  // by taking every call away.
  test('are the overflow switch where it holds the boiler off, and the interlock where nothing calls', () => {
    expect(safety('condensate-high')).toEqual([
      expect.stringMatching(/^Condensate pump: stops the boiler/),
    ]);
    expect(safety('standby')).toEqual([expect.stringMatching(/^Interlock: /)]);
    expect(safety('satisfied')).toEqual([expect.stringMatching(/^Interlock: /)]);
    expect(safety('heating')).toEqual([]);
  });

  test('are none in a mode that nobody brings about', () => {
    for (const mode of sheet.modes.filter(({ testable, isolated }) => !testable || isolated))
      expect([mode.id, mode.safety]).toEqual([mode.id, []]);
  });
});

describe('one tap for a mode', () => {
  const mended = addRepair(begun(), 'x');

  test('takes all of it as it should be, but what was said not to be so', () => {
    const astray = turnAstray(mended, modeOf(mended, 'heating'), 'E1.burner');
    const all = setAsDue(astray, modeOf(astray, 'heating'));
    const { looks } = modeOf(all, 'heating');
    expect(
      looks.filter(({ found, due }) => found !== due).map(({ outcome }) => outcome.id),
    ).toEqual(['E1.burner']);
    const right = turnAstray(all, modeOf(all, 'heating'), 'E1.burner');
    expect(isProved(modeOf(right, 'heating'))).toBe(true);
    expect(isProved(modeOf(right, 'standby'))).toBe(false);
  });

  test('an exception said again is not looked at, where nothing else of the mode was', () => {
    const astray = turnAstray(mended, modeOf(mended, 'heating'), 'E1.burner');
    const back = turnAstray(astray, modeOf(astray, 'heating'), 'E1.burner');
    expect(lookAt(back, 'heating', 'E1.burner')).toBeUndefined();
  });
});

/**
 * Line to neutral, line to earth and neutral to earth are what a registered engineer reads before
 * a boiler is blamed; 15 V between neutral and earth at most is what boiler manuals ask for.
 */
test.each(systemFiles())('%s: the boiler’s supply is read last, where a probe can go', (id) => {
  const { engine } = systemForJob(id);
  const own = newJob({ id, title: id, wiring: 1, mode: 'standby' }, { name: '', place: '' });
  const readings = supplyReadings(engine.sheet, own);
  expect(readings.map(({ asked }) => engine.due(asked)?.answer)).toEqual(['live', 'live', 'dead']);
  for (const { asked } of readings)
    for (const point of [asked.from, asked.to])
      expect([point, pointIn(engine.sheet, point)?.reads]).toEqual([point, 'live and dead']);
  const { asked } = readings[2]!;
  const { current, ...read } = asked;
  const after = addEntry(addRepair(own, 'x'), { ...read, answer: 'dead' });
  expect(supplyReadings(engine.sheet, after).map((one) => one.after !== undefined)).toEqual([
    false,
    false,
    true,
  ]);
  // What was read before the repair proves nothing of it.
  const before = addRepair(addEntry(own, { ...read, answer: 'dead' }), 'x');
  expect(supplyReadings(engine.sheet, before).some((one) => one.after)).toBe(false);
});
