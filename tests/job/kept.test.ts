import { describe, expect, test } from 'vitest';
import { addEntry, addRemark, newJob } from '../../src/job/job.ts';
import { asRecord, readRecord, savedOf, unread } from '../../src/job/kept.ts';
import { memoryStore } from '../../src/job/store.ts';

const NOW = '2026-01-01T08:00:00.000Z';
const begun = () =>
  newJob(
    { id: 'combi-two-wire', title: 'Combi', wiring: 1, mode: 'heating' },
    { name: '  Hall ', place: ' Cupboard ' },
    { now: () => NOW, id: () => 'job-1' },
  );
const job = begun();
const place = { view: 'seen', draft: null } as const;
const kept = { job, saved: 3, place };

describe('a kept job', () => {
  test('is written with its id and the time it was changed, and read back as it was', () => {
    const record = asRecord(kept);
    expect([record.id, record.at, record.saved]).toEqual(['job-1', NOW, 3]);
    expect(readRecord(record, 'job-1')).toMatchObject({ job, saved: 3, place: { view: 'seen' } });
  });

  test('is named without the spaces around what was typed', () => {
    const { name, place: where } = begun();
    expect([name, where]).toEqual(['Hall', 'Cupboard']);
  });

  test.each([
    [{ saved: 2 }, 2],
    [{ saved: 0 }, 0],
    [{ saved: -1 }, 0],
    [{ saved: '2' }, 0],
    [{}, 0],
    [null, 0],
    ['text', 0],
  ])('of %j was saved %i times', (record, times) => expect(savedOf(record)).toBe(times));
});

describe('a job that cannot be read', () => {
  const said = (record: unknown, id = 'job-1') => {
    const read = readRecord(record, id);
    return 'problem' in read ? [read.problem, read.why] : read;
  };

  test('says why', () => {
    const record = asRecord(kept);
    expect(said(undefined)).toEqual(['damaged', 'this browser can no longer give it back.']);
    expect(said('text')).toEqual(['damaged', 'it is no record.']);
    expect(said([])).toEqual(['damaged', 'it is no record.']);
    expect(said({ ...record, job: 'text' })).toEqual(['damaged', 'it is no record']);
    expect(said(record, 'another')).toEqual(['damaged', 'it is kept under another name.']);
    expect(said({ ...record, job: { ...job, version: 99 } })).toEqual([
      'newer',
      'its version is 99.',
    ]);
    for (const version of ['2', 1.5, 0, -1, Number.NaN])
      expect(said({ ...record, job: { ...job, version } })).toEqual([
        'damaged',
        'its version is not known.',
      ]);
    expect(said({ ...record, job: { ...job, entries: [{}] } })).toEqual([
      'damaged',
      expect.stringMatching(/^at entries › 0(?: › \w+)*: \S/),
    ]);
    const photo = { id: 'p1', at: NOW, caption: '' };
    expect(said({ ...record, job: { ...job, photos: [photo, photo] } })).toEqual([
      'damaged',
      'two of its photos are one.',
    ]);
    expect(said({ ...record, job: { ...job, photos: [photo] } })).toMatchObject({ saved: 3 });
  });

  test('says which of its parts speak against each other', () => {
    const read = addEntry(job, {
      kind: 'look',
      mode: 'heating',
      outcome: 'E1.burner',
      answer: 'seen',
    });
    const noticed = addRemark(job, {
      place: 'E1',
      text: 'scorched terminal',
      code: 'C1',
      photo: null,
    });
    const [remark] = noticed.remarks;
    const why = (changed: object) => {
      const one = said({ ...asRecord(kept), job: { ...job, ...changed } });
      return Array.isArray(one) ? one : 'read';
    };
    expect(why({ entries: read.entries, remarks: noticed.remarks })).toBe('read');
    expect(why({ system: null, wiring: null })).toBe('read');
    expect(why({ remarks: [remark, remark] })).toEqual(['damaged', 'two things noticed are one.']);
    const halved = ['damaged', 'it names a system or the version of its wiring, not both.'];
    expect(why({ system: null })).toEqual(halved);
    expect(why({ wiring: null })).toEqual(halved);
    const composed = { specification: 'v=1', parts: null };
    expect(why({ composed })).toEqual([
      'damaged',
      'it names a system and an arrangement from parts, not one.',
    ]);
    expect(why({ system: null, wiring: null, composed })).toBe('read');
    expect(why({ system: null, wiring: null, entries: read.entries })).toEqual([
      'damaged',
      'it has readings, and no system to have them of.',
    ]);
    expect(why({ entries: read.entries.map((one) => ({ ...one, round: 1 })) })).toEqual([
      'damaged',
      'a reading stands after a repair that is not in it.',
    ]);
  });

  test('carries what can be made out of it, and the rest as it lay there', () => {
    const raw = {
      name: '  ',
      place: `${'x'.repeat(200)}`,
      photos: [{ id: 'p' }, { id: 4 }, 'q', null],
    };
    const one = unread({ at: 'no time', job: { ...raw, changed: NOW } }, 'j', 'damaged', 'why.');
    expect(one).toMatchObject({
      id: 'j',
      title: 'x'.repeat(160),
      at: NOW,
      problem: 'damaged',
      why: 'why.',
      raw: { ...raw, changed: NOW },
      photos: ['p'],
      removable: true,
    });
    expect(unread({ at: NOW, job: { photos: {} } }, 'j', 'newer', '')).toMatchObject({
      title: '',
      at: NOW,
      photos: [],
    });
    expect(unread({ job: { systemTitle: ' Combi ' } }, 'j', 'newer', '').title).toBe('Combi');
    expect(unread({ at: 7, job: 'text' }, 'j', 'newer', '')).toMatchObject({
      at: null,
      raw: { at: 7, job: 'text' },
    });
  });
});

test('a store in memory lists the job changed last first, and gives back unreadable ones', async () => {
  const lost = unread({ job: {} }, 'lost', 'damaged', 'why.');
  const other = unread({ job: {} }, 'other', 'damaged', 'why.');
  const store = memoryStore(undefined, [other, lost]);
  expect(store.kept).toBe('memory');
  const named = (id: string, changed: string) => ({ ...kept, job: { ...job, id, changed } });
  await store.put(named('b', '2026-01-02T00:00:00.000Z'));
  await store.put(named('c', '2026-01-03T00:00:00.000Z'));
  await store.put(named('a', '2026-01-01T00:00:00.000Z'));
  const { jobs, unread: left } = await store.all();
  expect(jobs.map((one) => one.job.id)).toEqual(['c', 'b', 'a']);
  expect(left).toEqual([other, lost]);
  expect(await store.get('lost')).toBe(lost);
  expect(await store.get('nothing')).toBeUndefined();
  expect((await store.get('b')) as typeof kept).toMatchObject({ job: { id: 'b' } });
});
