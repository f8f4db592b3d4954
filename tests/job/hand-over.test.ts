import { describe, expect, test } from 'vitest';
import { readFieldText } from '../../src/field/index.ts';
import { fieldText, messageText } from '../../src/field/write.ts';
import type { Findings } from '../../src/job/findings.ts';
import {
  causeOf,
  minutesOf,
  NOTHING_TICKED,
  visitOf,
  visitWords,
} from '../../src/job/hand-over.ts';
import { addEntry, addRepair, changeJob, newJob, setFinished } from '../../src/job/job.ts';
import { repairText } from '../../src/job/standing.ts';

/** Words of a customer's house: no file may hold one unless it is ticked. */
const PRIVATE = /Sample|Invented|bites|garden gate/;
const SYSTEM = { id: 'combi-two-wire', title: 'Combi', wiring: 3, mode: 'heating' };
const job = [
  (now: ReturnType<typeof newJob>) =>
    changeJob(now, { name: 'Mrs Sample', place: '1 Invented Road', notes: 'Dog bites.' }),
  (now: ReturnType<typeof newJob>) =>
    addEntry(
      now,
      {
        kind: 'live',
        mode: 'heating',
        from: 'E1.L',
        to: 'E1.N',
        instrument: 'tester',
        answer: 'dead',
      },
      'by the garden gate',
    ),
  (now: ReturnType<typeof newJob>) => addRepair(now, 'Sample: fuse renewed'),
  (now: ReturnType<typeof newJob>) => setFinished(now, true),
].reduce((now, act) => act(now), newJob(SYSTEM, { name: '', place: '' }));

const none = async () => undefined;
const given = { cause: 'fuse', minutes: 35, ticks: NOTHING_TICKED } as const;

describe('a finished visit handed over', () => {
  test('holds nothing of the customer’s, and reads back as it was', async () => {
    const visit = await visitOf(job, given, null, none);
    expect(fieldText(visit)).not.toMatch(PRIVATE);
    expect(readFieldText(fieldText(visit))).toEqual({ file: visit });
    expect([visit.acts, visit.readings, visit.wiring]).toEqual([
      ['live heating E1.L E1.N tester'],
      1,
      3,
    ]);
  });

  test('holds what is ticked, and only that', async () => {
    const notes = await visitOf(
      job,
      { ...given, ticks: { ...NOTHING_TICKED, notes: true } },
      null,
      none,
    );
    expect(notes.ticked).toEqual({ notes: 'Dog bites.' });
    const all = { name: true, place: true, notes: true, photographs: true };
    const whole = await visitOf(job, { ...given, ticks: all }, null, none);
    expect(whole.ticked).toEqual({
      name: 'Mrs Sample',
      place: '1 Invented Road',
      notes: 'Dog bites.',
    });
    expect(fieldText(whole)).not.toMatch(/garden gate/);
  });

  test('is one file however often it is sent', async () => {
    const [one, two] = await Promise.all([
      visitOf(job, given, null, none),
      visitOf(job, given, null, none),
    ]);
    expect(fieldText(one)).toBe(fieldText(two));
  });

  test('reads back from a message too', async () => {
    const visit = await visitOf(job, given, null, none);
    const message = messageText(visitWords(visit), visit);
    expect(message).toMatch(/^A visit to combi-two-wire: Fuse, MCB, switch\n/);
    expect(readFieldText(`From: a colleague\n${message}`)).toEqual({ file: visit });
  });
});

test('minutes are those of the visit, and none where it was left open for days', () => {
  const started = '2026-11-20T08:00:00.000Z';
  const at = (finished: string | null) => minutesOf({ ...job, started, finished });
  expect(at('2026-11-20T08:42:10.000Z')).toBe(42);
  expect(at('2026-11-23T08:00:00.000Z')).toBeNull();
  expect(at('2026-11-20T07:00:00.000Z')).toBeNull();
  expect(at(null)).toBeNull();
});

test('the cause is the one that the last repair was entered from', () => {
  const repair = {
    key: 'k',
    repair: 'Fit a new head',
    share: 0.9,
    causes: [
      { title: 'Valve motor open circuit', family: 'valve', share: 0.9, hazard: null, says: null },
    ],
  } as unknown as Findings['repairs'][number];
  const findings = { repairs: [repair] } as unknown as Findings;
  const mended = addRepair(job, repairText(repair, true));
  expect(causeOf(mended, findings)).toBe('valve');
  expect(causeOf(addRepair(mended, 'In my own words'), findings)).toBeNull();
  expect(causeOf({ ...job, repairs: [] }, findings)).toBeNull();
});
