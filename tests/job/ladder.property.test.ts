import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { newDraft, observationTyped } from '../../src/job/draft.ts';
import * as acts from '../../src/job/job.ts';
import { jobFileText, MOST_BYTES, readJobFile } from '../../src/job/job-file.ts';
import { JOB_VERSION, JobFile } from '../../src/job/job-schema.ts';
import { readRecord } from '../../src/job/kept.ts';
import { isPlain, type Plain, readJob } from '../../src/job/ladder.ts';
import { exportedUnread } from '../../src/job/transfer.ts';
import { property } from '../support/property.ts';
import { besideShapes, SHAPES } from './shapes.ts';
import { systemForJob } from './systems.ts';

const { engine } = systemForJob('combi-volt-free');

const NEWEST = SHAPES.find(({ name }) => name === `v${JOB_VERSION}`)!;

describe('the newest shape is frozen', () => {
  test('its schema is as it landed: another shape takes the next number and a rung', () => {
    expect(z.toJSONSchema(JobFile, { io: 'input' })).toEqual(
      JSON.parse(besideShapes(`v${JOB_VERSION}.schema.json`)),
    );
  });

  test('each version that ever landed has a shape here', () => {
    const versions = new Set(SHAPES.map(({ version }) => version));
    expect([...versions].toSorted()).toEqual(Array.from({ length: JOB_VERSION }, (_, i) => i + 1));
    expect(NEWEST).toBeDefined();
  });
});

/** The same job as the newest shape has it. */
const risen = (job: Plain) => ({
  ...job,
  version: JOB_VERSION,
  asFound: job.asFound ?? null,
  history: job.history ?? 'worked until now',
  cannot: job.cannot ?? [],
  complaint: job.complaint ?? null,
  sequence: job.sequence ?? null,
  remarks: job.remarks ?? [],
  remains: job.remains ?? '',
  customer: job.customer ?? '',
  composed: job.composed ?? null,
  entries: (job.entries as readonly Plain[]).map((entry) => ({
    ...entry,
    ...(isToldBefore(entry) ? { note: '', told: true } : { told: entry.told ?? false }),
  })),
});

/** Up to version 6 a note said that something was only told. */
const isToldBefore = ({ note, told }: Plain) =>
  told === undefined && note === 'as the customer says';

test('an entry of an older job that is no entry at all stands as it was, and is told of', () => {
  const { record } = SHAPES.find(({ record: { job } }) => (job as Plain).version === 6)!;
  const damaged = { ...(record.job as Plain), entries: [null, 3] };
  const read = readJob(damaged);
  expect(read).not.toHaveProperty('job');
  expect(JSON.stringify(read)).toContain('entries');
});

describe.each(SHAPES)('a job kept as $name', ({ record, file }) => {
  test('opens, with everything that was in it', () => {
    const read = readJob(record.job);
    expect(read).toEqual({
      job: risen(record.job),
    });
  });

  test('comes in as a file', () => {
    const read = readJobFile(JSON.stringify(file));
    expect(read).toEqual({
      file: {
        ...file,
        version: JOB_VERSION,
        job: risen(file.job),
      },
    });
  });

  test('is not changed by being read', () => {
    const before = JSON.stringify(record);
    readJob(record.job);
    expect(JSON.stringify(record)).toBe(before);
  });
});

/** Every place in a value, as the names that lead there. */
function placesIn(value: unknown, from: readonly string[] = []): (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, part]) => [
    [...from, name],
    ...placesIn(part, [...from, name]),
  ]);
}

/** A copy with another value at a place; without it where `to` is the function itself. */
function damaged(value: Plain, place: readonly string[], to: unknown): Plain {
  const copy = structuredClone(value);
  let at = copy as Record<string, unknown>;
  for (const name of place.slice(0, -1)) at = at[name] as Record<string, unknown>;
  if (to === damaged) delete at[place.at(-1)!];
  else at[place.at(-1)!] = to;
  return copy;
}

describe('a damaged record', () => {
  const places = SHAPES.flatMap((shape) =>
    placesIn(shape.record)
      .filter(([first, second, index]) => !(second === 'photos' && Number(index) > 1) && first)
      .map((place) => ({ record: shape.record, place })),
  );
  const wrong = fc.oneof(
    fc.constant(damaged),
    fc.anything({ withBigInt: true, withDate: true, withMap: true, withSet: true }),
  );

  property(
    'is read or kept whole as it lies there, and never throws',
    3000,
    async ([{ record, place }, to]) => {
      const bad = damaged(record, place, to);
      const read = readRecord(bad, record.job.id);
      if ('job' in read) {
        expect(readJob(read.job)).toEqual({ job: read.job });
        return;
      }
      expect(read.raw).toBe(isPlain(bad.job) ? bad.job : bad);
      expect(read.why).not.toBe('');
      const { text } = await exportedUnread(read, async () => undefined);
      expect(JSON.parse(text)).toMatchObject({ proveline: 'job', pictures: [] });
    },
    fc.tuple(fc.constantFrom(...places), wrong),
  );

  property(
    'that is anything at all is kept as it lies there',
    400,
    (anything) => {
      const read = readRecord(anything, 'x');
      expect('raw' in read && read.raw).toBe(
        isPlain(anything) && isPlain(anything.job) ? anything.job : anything,
      );
    },
    fc.anything({ withBigInt: true, withDate: true, withMap: true }),
  );

  test.each(placesIn(NEWEST.record.job).filter((place) => place.length === 1))(
    'without its %s cannot be read, and says where',
    (name) => {
      const read = readRecord(damaged(NEWEST.record, ['job', name], damaged), NEWEST.record.job.id);
      expect(read).toMatchObject({
        problem: 'damaged',
        why:
          name === 'version' ? 'its version is not known.' : expect.stringContaining(`at ${name}`),
        title: name === 'name' ? '12 Mill Lane' : 'No heat',
        at: NEWEST.record.at,
      });
    },
  );

  test('that goes round in a circle has a file all the same', async () => {
    const round: Record<string, unknown> = { version: 1, notes: 'by hand', big: 7n };
    round.self = round;
    round.twice = [new Map([['a', round]]), new Set(['b'])];
    const read = readRecord({ job: round }, 'x');
    const { text } = await exportedUnread('raw' in read ? read : fail(), async () => undefined);
    expect(JSON.parse(text).job).toEqual({
      version: 1,
      notes: 'by hand',
      big: '7',
      self: '(itself again)',
      twice: [[['a', '(itself again)']], ['b']],
    });
  });

  test('of the same name as another is told by the name it lies under', () => {
    expect(readRecord(NEWEST.record, 'other')).toMatchObject({
      problem: 'damaged',
      why: 'it is kept under another name.',
    });
  });
});

const fail = (): never => {
  throw new Error('a record that cannot be read was read');
};

describe('a job of a newer version', () => {
  const job = { ...NEWEST.record.job, version: JOB_VERSION + 1, entries: { by: 'room' } };

  test('is said to be newer, and named as far as it can be', () => {
    expect(readRecord({ ...NEWEST.record, job }, job.id)).toMatchObject({
      problem: 'newer',
      why: `its version is ${JOB_VERSION + 1}.`,
      title: 'No heat',
      raw: job,
    });
  });

  test('goes out as a file that a newer version takes, and this one refuses as newer', async () => {
    const read = readRecord({ ...NEWEST.record, job }, job.id);
    const picture = new Blob([new Uint8Array([0xff, 0xd8, 0xff])]);
    const { name, text, left } = await exportedUnread(
      'raw' in read ? read : fail(),
      async () => picture,
    );
    expect(name).toBe(`job-no-heat-${String(NEWEST.record.at).slice(0, 10)}.json`);
    expect(JSON.parse(text)).toMatchObject({ proveline: 'job', version: JOB_VERSION + 1, job });
    expect([JSON.parse(text).pictures.length, left]).toEqual([1, 0]);
    expect(readJobFile(text)).toEqual({
      problem: `This job is of version ${JOB_VERSION + 1}, made by a newer version of this reference: take up the newer version, then import it.`,
    });
  });
});

describe('what stood half done', () => {
  const { record } = NEWEST;
  const placeOf = (place: unknown) => {
    const read = readRecord({ ...record, place }, record.job.id);
    return 'job' in read ? read.place : fail();
  };

  test('is taken up where it was', () => {
    const { draft, ...place } = record.place as Plain;
    // What hands do came after it was kept: a reading half entered is none of that.
    expect(placeOf(record.place)).toEqual({ ...place, draft: { act: null, ...(draft as Plain) } });
  });

  test.each([
    ['nothing', undefined, { view: 'next', draft: null }],
    ['a text', 'record', { view: 'next', draft: null }],
    ['another page', { view: 'ledger', draft: null }, { view: 'next', draft: null }],
    [
      'a reading of another version',
      { view: 'record', draft: { kind: 'live', probe: 1 } },
      { view: 'record', draft: null },
    ],
  ])('and is now %s begins anew, with the job whole', (_, place, taken) => {
    expect(placeOf(place)).toEqual(taken);
  });

  property(
    'never loses the job',
    400,
    (place) => {
      expect(placeOf(place)).toBeDefined();
    },
    fc.anything(),
  );
});

describe('whatever a page lets be entered', () => {
  const SYSTEM = { id: 'combi-two-wire', title: 'T'.repeat(300), wiring: 1, mode: 'heating' };
  const slug = fc.constantFrom('heating', 'hot-tap', 'isolated');
  const point = fc.constantFrom('E1.L', 'E1.call feed', 'X1.3');
  const words = fc.string({ maxLength: 2000, unit: 'binary' });
  /** What seven digits of the pad, their sign and unit can make. */
  const figure = fc
    .tuple(fc.integer({ min: 0, max: 9_999_999 }), fc.constantFrom(1, 10, 1e4))
    .map(([digits, by]) => digits / by);
  const observation = fc.oneof(
    fc.record({
      kind: fc.constant('look' as const),
      mode: slug,
      outcome: point,
      answer: fc.constantFrom('seen' as const, 'not seen' as const, 'comes and goes' as const),
    }),
    fc.record({
      kind: fc.constant('live' as const),
      mode: slug,
      from: point,
      to: point,
      instrument: fc.constantFrom('tester' as const, 'multimeter' as const),
      typed: figure,
    }),
    fc.record({
      kind: fc.constant('dead' as const),
      from: point,
      to: point,
      typed: figure,
      scale: fc.constantFrom(1, 1e3, 1e6),
    }),
  );
  type Act = (job: acts.Job) => acts.Job;
  const act: fc.Arbitrary<Act> = fc.oneof(
    fc.tuple(observation, words).map(
      ([one, note]): Act =>
        (job) => {
          if (one.kind === 'look') return acts.addEntry(job, one, note);
          const draft = {
            ...newDraft(job, one.kind),
            ...one,
            typed: String(one.typed),
            mode: one.kind === 'live' ? one.mode : 'isolated',
          };
          const made = observationTyped(engine.sheet, draft);
          return made ? acts.addEntry(job, made, note) : job;
        },
    ),
    words.map(
      (text): Act =>
        (job) =>
          acts.addRepair(job, text),
    ),
    words.map(
      (text): Act =>
        (job) =>
          acts.changeRepair(job, text),
    ),
    fc.constant<Act>((job) => acts.takeBackRepair(job)),
    words.map(
      (notes): Act =>
        (job) =>
          acts.changeJob(job, { notes, name: notes.slice(0, 160) }),
    ),
    fc.uuid().map(
      (id): Act =>
        (job) =>
          acts.addPhoto(job, { id, at: job.started, caption: '' }),
    ),
    fc.boolean().map(
      (done): Act =>
        (job) =>
          acts.setFinished(job, done),
    ),
    fc.constantFrom(null, 'as=1.a.1.e30.abc1234').map(
      (link): Act =>
        (job) =>
          acts.setAsFound(job, link),
    ),
  );

  property(
    'can be read again, kept and sent on',
    200,
    (done) => {
      const begun = acts.newJob(SYSTEM, { name: '', place: '' });
      const job = done.reduce((now, change) => change(now), begun);
      const kept = structuredClone(job);
      expect(readJob(kept)).toEqual({ job });
      const text = jobFileText({ proveline: 'job', version: JOB_VERSION, job, pictures: [] });
      expect(text.length).toBeLessThan(MOST_BYTES);
      expect(readJobFile(text)).toHaveProperty('file');
    },
    fc.array(act, { maxLength: 24 }),
  );
});
