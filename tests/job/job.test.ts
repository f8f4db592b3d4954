import { describe, expect, test } from 'vitest';
import type { Observation } from '../../src/diagnosis/inference/index.ts';
import {
  addEntry,
  addPhoto,
  addRemark,
  addRepair,
  bringBack,
  changeEntry,
  changeRepair,
  enterFound,
  isKnown,
  type Job,
  jobTitle,
  leaveOut,
  lookAt,
  newJob,
  openEntries,
  removeEntry,
  removePhoto,
  removeRemark,
  setAsFound,
  setLook,
  takeBackRepair,
  withSpecification,
  withSystem,
  withWorkedOut,
} from '../../src/job/job.ts';
import { Job as JobSchema } from '../../src/job/job-schema.ts';
import { MOST_FRAGMENT } from '../../src/job/limits.ts';
import { provingReadings } from '../../src/job/proving.ts';
import { recordOf, recordText } from '../../src/job/record.ts';
import { memoryStore } from '../../src/job/store.ts';
import { ohmsText } from '../../src/job/words.ts';
import { ohms, volts } from '../../src/units/index.ts';
import { lowerFirst } from '../../src/words/index.ts';
import { systemForJob } from './systems.ts';

const { engine } = systemForJob('combi-two-wire');
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
    { id: sheet.id, title: sheet.title, wiring: sheet.wiring, mode: 'heating' },
    { name: ' Hall ', place: '' },
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

  test('leaves out what cannot be done or opened, and has it all back when asked', () => {
    const job = addEntry(begun(), reading('dead'), '', how);
    const less = leaveOut(leaveOut(job, 'E1/wiring cover', how), 'core:W3.BN-BU', how);
    expect(less.cannot).toEqual(['E1/wiring cover', 'core:W3.BN-BU']);
    expect(less.changed).not.toBe(job.changed);
    const again = bringBack(less, how);
    expect(again.changed).not.toBe(less.changed);
    expect(again).toEqual({ ...job, changed: again.changed });
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
    expect(row).toMatchObject({ before: 'no volts (twice)', after: 'live' });
  });

  test('says a figure as it was typed: rounded, a dead 11.5 V would be 12 V and no longer dead', () => {
    const typed = (figure: number): Observation =>
      ({
        ...reading('dead'),
        answer: { volts: volts(figure), current: 'ac' },
      }) as Observation;
    const dead: Observation = {
      kind: 'dead',
      mode: 'isolated',
      from: point.id,
      to: point.against!,
      answer: { ohms: ohms(1234.5) },
    };
    const job = addEntry(addEntry(begun(), typed(11.5), '', how), dead, '', how);
    const texts = recordOf(sheet, job).rows.map(({ before }) => before);
    expect(texts).toEqual(['no volts, 11.5 V', 'a resistance, 1.2345 kΩ']);
    expect(ohmsText(1234.5)).toBe('1.23 kΩ');
  });

  test('holds every time a thing was read, and what was first read after the repair', () => {
    const twice = addEntry(found, reading('live'), '', how);
    expect(recordOf(sheet, twice).rows.map(({ before }) => before)).toEqual([
      'no volts (twice); then live',
    ]);
    const other: Observation = { ...reading('live'), instrument: 'multimeter' } as Observation;
    const after = addEntry(addRepair(twice, 'Core put back', how), other, '', how);
    expect(recordOf(sheet, after).rows).toMatchObject([
      { before: 'no volts (twice); then live', after: '' },
      { before: '', after: 'live', mode: expect.stringMatching(/, multimeter, high impedance$/) },
    ]);
    expect(recordText(sheet, after)).toContain(
      'multimeter, high impedance: after the repair: live\n',
    );
  });

  test('tells what each of several repairs left', () => {
    let job = addEntry(mended, reading('dead'), '', how);
    job = setLook(job, 'heating', 'E1.burner', 'not seen', how);
    job = addEntry(addRepair(job, 'Control changed', how), reading('live'), '', how);
    const { rows, found: lines } = recordOf(sheet, job);
    expect(rows).toMatchObject([
      { before: 'no volts (twice)', after: 'after repair 1 no volts; then after repair 2 live' },
    ]);
    expect(lines).toEqual([
      {
        mode: expect.stringMatching(/^After repair 1, /),
        looks: [{ words: 'boiler not firing', code: 'E1' }],
      },
    ]);
  });

  test('says what was done in the reader’s own words, and what is not proved', () => {
    const said = changeRepair(changeRepair(mended, 'Core', how), 'Core remade at both ends', how);
    expect(recordOf(sheet, said).repairs).toEqual(['Core remade at both ends']);
    expect(openEntries(said)).toEqual(openEntries(mended));
    expect(recordOf(sheet, changeRepair(mended, ' ', how)).repairs).toEqual(['Not said what']);
    expect(recordText(sheet, said)).toMatch(/Repaired\n- Core remade at both ends\n/);
    expect(recordText(sheet, said)).toMatch(/Proved\n- Nothing was proved after the repair\.\n/);
    expect(recordText(sheet, said)).toMatch(/Not proved, or not wholly\n- /);
  });

  test('tells what is proved from what is not as it must be', () => {
    const { proved: so, astray, unproved, untried } = recordOf(sheet, proved);
    const seen = engine.sheet.outcomes.find(({ id }) => id === 'E1.burner')!.title;
    const titleOf = (id: string) => sheet.modes.find((mode) => mode.id === id)!.title;
    // What no mode changes, as the pressure gauge, was never looked at and is not asked again.
    const all = sheet.outcomes.filter(({ steady }) => steady === null).length;
    expect(so).toEqual([
      `${titleOf('heating')}: 1 of ${all} as they should be: ${lowerFirst(seen)}`,
    ]);
    expect(astray).toEqual([
      { mode: titleOf('standby'), looks: [{ words: lowerFirst(seen), code: 'E1' }] },
    ]);
    expect(untried).toContain(titleOf('heating'));
    expect(unproved).toEqual([`${titleOf('standby')} (a safety device)`]);
  });

  test('sends on as plain text', () => {
    const text = recordText(sheet, { ...proved, by: 'A. Fitter', notes: '<b>kept</b> as typed' });
    expect(text.startsWith('Hall\n')).toBe(true);
    for (const part of [
      'by A. Fitter',
      'Core put back',
      '<b>kept</b> as typed',
      'no volts (twice)',
    ])
      expect(text).toContain(part);
  });
});

test('begins with what the customer says, in its mode, marked so until somebody looks', () => {
  const seen = [
    { mode: 'standby', outcome: 'E1.display', answer: 'seen' as const },
    { mode: 'heating', outcome: 'E1.burner', answer: 'not seen' as const },
  ];
  const job = newJob(
    { id: sheet.id, title: sheet.title, wiring: sheet.wiring, mode: 'heating' },
    { name: '', place: '', seen },
    how,
  );
  expect(job.entries.map(({ told, observation }) => [told, observation])).toEqual(
    seen.map((one) => [true, { kind: 'look', ...one }]),
  );
  const look = (answer: 'seen' | 'not seen') =>
    ({ kind: 'look', mode: 'heating', outcome: 'E1.burner', answer }) as const;
  // What is found stands in the place of what was told, whichever way it is entered.
  const found = enterFound(job, look('seen'), undefined, how);
  expect(found.entries.map(({ told, observation }) => [told, observation])).toEqual([
    [true, { kind: 'look', ...seen[0] }],
    [false, look('seen')],
  ]);
  expect(setLook(job, 'heating', 'E1.burner', 'not seen', how).entries[1]).toMatchObject({
    told: false,
    observation: look('not seen'),
  });
  // A look at something else leaves it as it is told.
  const other = enterFound(job, { ...look('seen'), outcome: 'E1.display' }, '', how);
  expect(other.entries.map(({ told }) => told)).toEqual([true, true, false]);
  // A second look of one's own is one more.
  expect(enterFound(found, look('not seen'), '', how).entries).toHaveLength(3);
  // Nobody has written a note yet.
  const asked = setLook(job, 'standby', 'E1.burner', 'seen', how);
  const notes = [job, found, asked].flatMap(({ entries }) => entries.map(({ note }) => note));
  expect(notes).toEqual(Array(7).fill(''));
  expect([job.mode, job.notes, job.by]).toEqual(['standby', '', '']);
  expect(
    newJob({ id: 'x', title: 'X', wiring: 1, mode: 'heating' }, { name: '', place: '' }, how).mode,
  ).toBe('heating');
});

test('begins with the fuse that the customer says has blown, until somebody has it in the hand', () => {
  const system = { id: sheet.id, title: sheet.title, wiring: sheet.wiring, mode: 'heating' };
  const job = newJob(system, { name: '', place: '', blown: ['Q1/fuse'] }, how);
  expect(JobSchema.parse(job)).toEqual(job);
  const blown = { kind: 'fuse', mode: 'isolated', branch: 'Q1/fuse', answer: 'blown' } as const;
  expect(job.entries).toMatchObject([{ told: true, note: '', observation: blown }]);
  // Nobody stands at the open spur yet, and the record has no reading that nobody took.
  expect(job.mode).toBe('heating');
  expect(recordOf(sheet, job).rows).toEqual([]);
  const found = enterFound(job, { ...blown, answer: 'intact' }, 'by ohms', how);
  expect(found.entries).toMatchObject([
    { told: false, note: 'by ohms', observation: { answer: 'intact' } },
  ]);
  expect(found.mode).toBe('isolated');
  expect(enterFound(found, blown, '', how).entries).toHaveLength(2);
  // Another fuse is another thing.
  expect(enterFound(job, { ...blown, branch: 'E1/fuse' }, '', how).entries).toHaveLength(2);
});

test('follows a published sequence where it was begun on one, and no other', () => {
  const complaint = { id: 'no-heating', words: 'No heating' };
  const begun = (more: object) => newJob(null, { name: '', place: '', ...more }, how).sequence;
  expect(begun({ complaint })).toBe(null);
  expect(begun({ complaint, sequence: 'no-heating' })).toBe('no-heating');
  // Not known at first: it follows one, and is told of the fuse, once its system is said.
  const unknown = newJob(null, { name: '', place: '', complaint }, how);
  const system = { id: sheet.id, title: sheet.title, wiring: sheet.wiring, mode: 'heating' };
  const told = withSystem(unknown, system, { blown: ['Q1/fuse'], sequence: 'no-heating' }, how);
  expect(JobSchema.parse(told)).toEqual(told);
  expect([told.sequence, told.mode]).toEqual(['no-heating', 'heating']);
  expect(told.entries).toMatchObject([
    { told: true, observation: { kind: 'fuse', answer: 'blown' } },
  ]);
  expect(withSystem(unknown, system, {}, how)).toMatchObject({ sequence: null, entries: [] });
});

test('begins with nothing in it where the system is not known, and takes what is seen with it', () => {
  const job = newJob(null, { name: '', place: '' }, how);
  expect(job).toMatchObject({ system: null, systemTitle: '', remains: '', customer: '', by: '' });
  expect(jobTitle(job)).toBe('Job');
  // Of two sightings of one thing the later stands.
  const burner = { mode: 'heating', outcome: 'E1.burner' };
  const known = withSystem(
    job,
    { id: sheet.id, title: sheet.title, wiring: sheet.wiring, mode: 'standby' },
    {
      seen: [
        { ...burner, answer: 'seen' },
        { ...burner, answer: 'not seen' },
      ],
    },
    how,
  );
  expect(known.entries.map(({ told, observation }) => [told, observation])).toEqual([
    [true, { kind: 'look', ...burner, answer: 'not seen' }],
  ]);
  // What nobody told of before is entered as seen.
  const look = { kind: 'look', ...burner, mode: 'standby', answer: 'seen' } as const;
  const plain = { told: false, note: '' };
  expect(enterFound(known, look, '', how).entries[1]).toMatchObject({
    ...plain,
    observation: look,
  });
  expect(enterFound(known, reading('dead'), '', how).entries[1]).toMatchObject(plain);
});

describe('what is put right', () => {
  const live = (instrument: 'tester' | 'multimeter') => ({
    kind: 'live' as const,
    mode: 'heating',
    from: point.id,
    to: point.against!,
    instrument,
    answer: 'live' as const,
  });

  test('is the entry named and no other; the instrument last used is the next one’s', () => {
    const one = addEntry(begun(), live('multimeter'), 'first', how);
    expect(one.instrument).toBe('multimeter');
    expect(addEntry(begun(), live('tester')).entries[0]!.note).toBe('');
    const looked = addEntry(
      one,
      { kind: 'look', mode: 'heating', outcome: 'E1.burner', answer: 'seen' },
      '',
      how,
    );
    expect(looked.instrument).toBe('multimeter');
    const two = addEntry(looked, live('tester'), 'second', how);
    const [first, , last] = two.entries;
    const changed = changeEntry(two, last!.id, { note: 'put right' }, how);
    expect(changed.entries.map(({ note }) => note)).toEqual(['first', '', 'put right']);
    expect(changed.entries[0]).toBe(first);
  });

  test('is the last repair and none before it', () => {
    const two = addRepair(addRepair(begun(), 'one', how), 'two', how);
    expect(changeRepair(two, 'otherwise', how).repairs.map(({ text }) => text)).toEqual([
      'one',
      'otherwise',
    ]);
  });
});

describe('what a job carries beside its readings', () => {
  const photo = (id: string) => ({ id, at: '2026-01-01T08:00:00.000Z', caption: id }) as never;

  test('a photo more, and the one taken away is the one named', () => {
    const two = addPhoto(addPhoto(begun(), photo('a'), how), photo('b'), how);
    expect(two.photos.map(({ id }) => id)).toEqual(['a', 'b']);
    const one = removePhoto(two, 'a', how);
    expect(one.photos.map(({ id }) => id)).toEqual(['b']);
    expect({ ...one, photos: [], changed: '' }).toEqual({
      ...begun(),
      ...one,
      photos: [],
      changed: '',
    });
    expect(one.changed > two.changed).toBe(true);
  });

  test('something noticed more, and the one taken away is the one named', () => {
    const remark = { place: 'E1', text: 'scorched', code: 'C1', photo: null } as const;
    const two = addRemark(addRemark(begun(), remark, how), { ...remark, text: 'loose' }, how);
    expect(two.remarks.map(({ text }) => text)).toEqual(['scorched', 'loose']);
    const one = removeRemark(two, two.remarks[0]!.id, how);
    expect(one).toEqual({ ...two, remarks: [two.remarks[1]], changed: one.changed });
    expect(one.changed > two.changed).toBe(true);
  });

  test('is called by its name, else its place, else its system', () => {
    const names = { name: 'Hall', place: 'Cupboard', systemTitle: 'Combi' };
    const called = (change: object) => jobTitle({ ...begun(), ...names, ...change });
    expect([called({}), called({ name: '' }), called({ name: '', place: '' })]).toEqual([
      'Hall',
      'Cupboard',
      'Combi',
    ]);
    expect(called({ name: '', place: '', systemTitle: '' })).toBe('Job');
  });

  test('wiring as found is kept to the last letter that fits, and no further', () => {
    const longest = `as=${'a'.repeat(MOST_FRAGMENT - 3)}`;
    expect(setAsFound(begun(), longest, how).asFound).toBe(longest);
    expect(() => setAsFound(begun(), `${longest}a`, how)).toThrow(RangeError);
    expect(() => setAsFound(begun(), 'something', how)).toThrow(RangeError);
  });
});

test('a store in memory gives a picture back, and not once its job is gone', async () => {
  const store = memoryStore();
  const picture = new Blob(['jpeg']);
  await store.putPicture('p', picture);
  expect(await store.picture('p')).toBe(picture);
  await store.remove('job', ['p']);
  expect(await store.picture('p')).toBeUndefined();
});

describe('a job on an arrangement from parts', () => {
  const at = '2026-01-01T09:00:00.000Z';
  const still = { now: () => at, id: () => 'one' };
  const came = { title: 'Combi from parts', parts: 'abc', mode: 'standby' };
  const lit = { mode: 'heating', outcome: 'E1.burner', answer: 'seen' } as const;
  const asked = (specification: string | null) =>
    newJob(null, { name: '', place: '', specification }, still);

  test('keeps what it was asked for, and not yet what that comes to', () => {
    expect(asked('combi').composed).toEqual({ specification: 'combi', parts: null });
    expect(asked(null).composed).toBeNull();
    expect([isKnown(asked('combi')), isKnown(asked(null)), isKnown(begun())]).toEqual([
      true,
      false,
      true,
    ]);
  });

  test('takes what it comes to once, with what its complaint shows there', () => {
    const job = { ...asked('combi'), changed: '' };
    const known = withWorkedOut(job, came, [lit], still);
    expect(known).toMatchObject({
      systemTitle: came.title,
      composed: { specification: 'combi', parts: 'abc' },
      changed: at,
      mode: 'heating',
    });
    expect(known.entries).toMatchObject([{ observation: { kind: 'look', ...lit }, told: true }]);
    // With nothing seen it stands where the arrangement begins.
    expect(withWorkedOut(job, came, [], still).mode).toBe('standby');
  });

  test('of an entry takes nothing of it', () => {
    const job = begun();
    expect(withWorkedOut(job, came, [lit], still)).toBe(job);
  });

  test('that nobody knew turns out to be one', () => {
    const job = { ...asked(null), changed: '' };
    expect(withSpecification(job, 'combi', still)).toEqual({
      ...job,
      composed: { specification: 'combi', parts: null },
      changed: at,
    });
  });
});
