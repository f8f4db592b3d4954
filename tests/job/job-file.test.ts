import { describe, expect, test } from 'vitest';
import { addEntry, addPhoto, addRepair, newJob, setAsFound } from '../../src/job/job.ts';
import { jobFileText, MOST_BYTES, readJobFile, sizeProblem } from '../../src/job/job-file.ts';
import { JOB_VERSION } from '../../src/job/job-schema.ts';

const bare = newJob(
  { id: 'combi-two-wire', title: 'Combi', wiring: 1, mode: 'heating' },
  {
    name: '<img src=x onerror=alert(1)>',
    place: '"; DROP TABLE jobs; --',
  },
);
const job = addPhoto(
  addRepair(
    addEntry(
      bare,
      {
        kind: 'live',
        mode: 'heating',
        from: 'E1.L',
        to: 'E1.N',
        instrument: 'tester',
        answer: 'live',
      },
      'near the flue',
    ),
    'Fuse put in',
  ),
  { id: 'p1', at: bare.started, caption: '' },
);
const whole = {
  proveline: 'job' as const,
  version: JOB_VERSION as typeof JOB_VERSION,
  job,
  pictures: [{ id: 'p1', jpeg: '/9j/AAAA' }],
};
type Plain = Record<string, unknown>;
const text = jobFileText(whole);
const changed = (change: (file: Plain & { job: Plain }) => void): string => {
  const file = JSON.parse(text);
  change(file);
  return JSON.stringify(file);
};

test('a job that was written reads back as it was, hostile words and all', () => {
  expect(readJobFile(text)).toEqual({ file: whole });
});

describe('the wiring as found', () => {
  const LINK = 'as=1.combi-two-wire.1.eyJlIjpbXX0.abc123&r=1.combi-two-wire.1.W10.99';

  test('goes out with the job and comes back in; a job without it is as it was', () => {
    const with_ = { ...whole, job: setAsFound(job, LINK) };
    expect(readJobFile(jobFileText(with_))).toEqual({ file: with_ });
    expect(setAsFound(with_.job, null).asFound).toBeNull();
    expect(setAsFound(job, null)).toBe(job);
  });

  test.each([
    ['a script', 'javascript:alert(1)'],
    ['another page', 'as=1.a/../../other'],
    ['a job of its own', 'as=1.a&job=x'],
    ['markup', 'as="><img src=x>'],
    ['nothing marked', 'as='],
    ['too long', `as=${'a'.repeat(8100)}`],
  ])('is refused where it is %s', (_, asFound) => {
    expect(() => setAsFound(job, asFound)).toThrow('as the fragment that its page writes');
    const read = readJobFile(
      changed((f) => {
        f.job.asFound = asFound;
      }),
    );
    expect(read).toMatchObject({
      problem: expect.stringMatching(/^This job is damaged at job › asFound/),
    });
  });
});

describe('a file that is no whole job is refused, in words:', () => {
  const cases: readonly (readonly [what: string, text: string, problem: RegExp])[] = [
    ['empty', '', /^This file is damaged or is no job: it is not whole JSON\.$/],
    ['cut off', text.slice(0, -40), /^This file is damaged or is no job: it is not whole JSON\.$/],
    ['another JSON', '{"a":1}', /^This file is not a job exported here\.$/],
    ['a list', '[]', /^This file is not a job exported here\.$/],
    ['null', 'null', /^This file is not a job exported here\.$/],
    [
      'a later version',
      changed((f) => {
        f.version = JOB_VERSION + 1;
      }),
      /^This job is of version 9, made by a newer version of this reference: take up the newer version, then import it\.$/,
    ],
    [
      'no version',
      changed((f) => {
        f.version = 'x';
      }),
      /^This job is of a version that is not known here\.$/,
    ],
    [
      'a key too many',
      changed((f) => {
        f.job.extra = 1;
      }),
      /^This job is damaged at job: /,
    ],
    [
      'a prototype',
      text.replace('"job": {', '"job": { "__proto__": { "a": 1 },'),
      /^This job is damaged at job: /,
    ],
    [
      'an entry without its mode',
      changed((f) => {
        delete (f.job.entries as Plain[])[0]!.observation;
      }),
      /^This job is damaged at job › entries › 0 › observation: /,
    ],
    [
      'an answer nobody gives',
      changed((f) => {
        ((f.job.entries as Plain[])[0]!.observation as Plain).answer = 'maybe';
      }),
      /^This job is damaged at job › entries › 0 › observation/,
    ],
    [
      'a name without end',
      changed((f) => {
        f.job.name = 'x'.repeat(5000);
      }),
      /^This job is damaged at job › name: /,
    ],
    [
      'a system that is a path',
      changed((f) => {
        f.job.system = '../../etc';
      }),
      /^This job is damaged at job › system: /,
    ],
    [
      'a time that is none',
      changed((f) => {
        f.job.started = 'now';
      }),
      /^This job is damaged at job › started: /,
    ],
    [
      'a picture that is a page',
      changed((f) => {
        f.pictures = [{ id: 'p1', jpeg: 'PHN2Zz4=' }];
      }),
      /^This job is damaged at pictures › 0 › jpeg: /,
    ],
    [
      'a picture of no photo',
      changed((f) => {
        f.pictures = [{ id: 'p2', jpeg: '/9j/AAAA' }];
      }),
      /^This job is damaged: it holds a picture that belongs to no photo\.$/,
    ],
    [
      'two entries of one id',
      changed((f) => {
        f.job.entries = [...(f.job.entries as Plain[]), (f.job.entries as Plain[])[0]!];
      }),
      /^This job is damaged: two of its readings are one\.$/,
    ],
    [
      'an entry after no repair',
      changed((f) => {
        (f.job.entries as Plain[])[0]!.round = 7;
      }),
      /^This job is damaged: a reading stands after a repair that is not in it\.$/,
    ],
  ];
  test.each(cases)('%s', (_, bad, problem) => {
    const read = readJobFile(bad);
    expect('problem' in read && read.problem).toMatch(problem);
  });
});

test('a file is measured before it is read', () => {
  expect(sizeProblem(MOST_BYTES)).toBeNull();
  expect(sizeProblem(0)).toBe('This file is empty.');
  expect(sizeProblem(3 * 1024 * 1024)).toBe(
    'This file has 3.0 MB; a job’s file has at most 2.0 MB.',
  );
});
