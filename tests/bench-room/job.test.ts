import { describe, expect, test } from 'vitest';
import {
  addEntry,
  addRepair,
  type Job,
  lookAt,
  newJob,
  openEntries,
  removeEntry,
  setLook,
  takeBackRepair,
} from '../../src/bench/job.ts';
import { Job as JobSchema } from '../../src/bench/job-schema.ts';
import { provingReadings } from '../../src/bench/proving.ts';
import { recordOf, recordText } from '../../src/bench/record.ts';
import { lowerFirst } from '../../src/bench/words.ts';
import type { Observation } from '../../src/diagnosis/inference/index.ts';
import { benchOf } from './systems.ts';

const { engine } = benchOf('combi-two-wire');
const { sheet } = engine;

/** Times and names that count up. */
function counting() {
  let count = 0;
  return {
    now: () => new Date(Date.UTC(2026, 0, 1, 8, 0, count++)).toISOString(),
    id: () => `id-${count++}`,
  };
}
const how = counting();
const begun = (): Job =>
  newJob(
    { id: sheet.id, title: sheet.title, wiring: sheet.wiring },
    { name: ' Hall ', place: '', mode: 'heating' },
    how,
  );
const point = sheet.items.flatMap(({ points }) => points).find(({ against }) => against !== null)!;
const reading = (answer: 'live' | 'dead'): Observation => ({
  kind: 'live',
  mode: 'heating',
  from: point.id,
  to: point.against!,
  instrument: 'tester',
  answer,
});
const withoutTime = ({ changed, ...job }: Job) => job;

describe('a job', () => {
  test('is what its own schema accepts, from the start on', () => {
    let job = begun();
    expect(JobSchema.parse(job)).toEqual(job);
    job = addRepair(addEntry(job, reading('dead'), 'by torch', how), ' Core put back. ', how);
    expect(JobSchema.parse(job)).toEqual(job);
    expect(job.repairs[0]!.text).toBe('Core put back.');
  });

  test('holds one look at an outcome in a mode until a repair', () => {
    const once = setLook(begun(), 'heating', 'E1.burner', 'seen', how);
    const twice = setLook(once, 'heating', 'E1.burner', 'not seen', how);
    expect(twice.entries).toHaveLength(1);
    expect(lookAt(twice, 'heating', 'E1.burner')!.observation).toMatchObject({
      answer: 'not seen',
    });
    const mended = setLook(addRepair(twice, 'x', how), 'heating', 'E1.burner', 'seen', how);
    expect(mended.entries.map(({ round }) => round)).toEqual([0, 1]);
    expect(openEntries(mended)).toHaveLength(1);
  });

  test('is as before when what was added is taken away', () => {
    const job = addEntry(begun(), reading('live'), '', how);
    const looked = setLook(job, 'heating', 'E1.burner', 'seen', how);
    const back = setLook(looked, 'heating', 'E1.burner', null, how);
    expect(withoutTime(back)).toEqual(withoutTime(job));
    const added = addEntry(job, reading('dead'), '', how);
    expect(removeEntry(added, added.entries[1]!.id, how).entries).toEqual(job.entries);
    expect(withoutTime(takeBackRepair(addRepair(job, 'x', how), how))).toEqual(withoutTime(job));
  });
});

describe('the record', () => {
  const found = addEntry(begun(), reading('dead'), 'twice', how);
  const mended = addRepair(found, 'Core put back', how);
  const proved = addEntry(
    setLook(
      setLook(mended, 'heating', 'E1.burner', 'seen', how),
      'standby',
      'E1.burner',
      'seen',
      how,
    ),
    reading('live'),
    '',
    how,
  );

  test('sets every reading beside the same one after the repair', () => {
    expect(provingReadings(found)).toEqual([]);
    expect(provingReadings(mended).map(({ after }) => after)).toEqual([undefined]);
    const [row] = recordOf(sheet, proved).rows;
    expect(row).toMatchObject({ before: 'dead (twice)', after: 'live' });
  });

  test('tells what is proved from what is not as it must be', () => {
    const { proved: so, astray, open } = recordOf(sheet, proved);
    const seen = engine.sheet.outcomes.find(({ id }) => id === 'E1.burner')!.title;
    const titleOf = (id: string) => sheet.modes.find((mode) => mode.id === id)!.title;
    expect(so).toEqual([`${titleOf('heating')}: E1 ${lowerFirst(seen)}`]);
    expect(astray).toEqual([`${titleOf('standby')}: E1 ${lowerFirst(seen)}`]);
    expect(open).toContain(titleOf('heating'));
  });

  test('sends on as plain text', () => {
    const text = recordText(sheet, { ...proved, by: 'A. Fitter', notes: '<b>kept</b> as typed' });
    expect(text.startsWith('Hall\n')).toBe(true);
    for (const part of ['by A. Fitter', 'Core put back', '<b>kept</b> as typed', 'dead (twice)'])
      expect(text).toContain(part);
  });
});
