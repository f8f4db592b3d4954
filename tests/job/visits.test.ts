import { describe, expect, test } from 'vitest';
import { addEntry, enterFound, leaveOut, newJob, setFinished } from '../../src/job/job.ts';
import { AT_START } from '../../src/job/place.ts';
import { type Known, visitsOf } from '../../src/job/visits.ts';
import { systemForJob } from './systems.ts';

const { engine } = systemForJob('combi-two-wire');
const { sheet } = engine;
let minute = 10;
const how = {
  now: () => `2026-01-01T10:${String(minute++).padStart(2, '0')}:00.000Z`,
  id: () => `job-${minute++}`,
};
const system = { id: 'combi-two-wire', title: 'A combi', wiring: 1, mode: 'standby' };
const begun = (name: string) => newJob(system, { name, place: '' }, how);
const request = {
  entries: [],
  mode: 'standby',
  history: 'worked until now',
  cannot: [],
  pairs: false,
} as const;
const findings = engine.find(request);
const next = engine.next(request)!;
const live = { kind: 'live', mode: 'heating', from: 'E1.supply-L', to: 'E1.supply-N' } as const;

const known = (change: Partial<Known>): Known => ({
  jobs: [],
  job: null,
  place: AT_START,
  sheet,
  findings,
  next,
  choosing: false,
  ...change,
});

describe('jobs left open', () => {
  test('are listed last touched first, without those that are finished', () => {
    const [one, two, three] = ['One', 'Two', 'Three'].map(begun);
    const jobs = [one!, setFinished(two!, true, how), leaveOut(three!, 'x', how)];
    expect(visitsOf(known({ jobs }), []).map(({ title }) => title)).toEqual(['Three', 'One']);
  });

  test('say that the system is to be found out where nobody knows it yet', () => {
    const job = newJob(
      null,
      { name: '', place: '', complaint: { id: 'fuse-blows', words: 'Fuse keeps blowing' } },
      how,
    );
    const [visit] = visitsOf(known({ job, sheet: null, findings: null, next: undefined }), []);
    expect(visit).toMatchObject({
      title: 'Fuse keeps blowing',
      next: 'Find out which system it is.',
      stands: expect.stringMatching(/^0 findings, [^,]+, [^,]+$/),
    });
  });

  test('count nothing that was only told', () => {
    const seen = [{ mode: 'heating', outcome: 'E1.burner', answer: 'not seen' as const }];
    const told = newJob(system, { name: 'Told', place: '', seen }, how);
    expect(visitsOf(known({ jobs: [told] }), [])[0]!.stands).toMatch(/^0 findings/);
    const looked = enterFound(told, { kind: 'look', ...seen[0]! }, '', how);
    expect(visitsOf(known({ jobs: [looked] }), [])[0]!.stands).toMatch(/^1 finding,/);
  });

  test('say what was found, when, and the system; the open one is as it stands on the desk', () => {
    const job = begun('Home');
    const on = addEntry(
      job,
      { kind: 'look', mode: 'heating', outcome: 'E1.display', answer: 'seen' },
      '',
      how,
    );
    const [visit] = visitsOf(known({ jobs: [job], job: on }), []);
    expect(visit!.stands).toMatch(/^1 finding, 1 Jan 2026, .*, A combi$/);
    expect(visit!.changed).toBe(on.changed);
  });

  test('have as next act what the engine proposes, or what is half entered', () => {
    const job = begun('Home');
    const say = (change: Partial<Known>) => visitsOf(known({ job, ...change }), [])[0]!.next;
    expect(say({})).toMatch(/^(Look|Live work|Isolated and proved dead)/);
    const draft = { kind: 'look' } as unknown as Known['place']['draft'];
    expect(say({ place: { ...AT_START, draft } })).toBe('Finish what is half entered.');
    expect(say({ next: null })).toMatch(/^No further test helps/);
  });

  // Electricity at Work Regulations 1989, regulation 14; HSE GS38: who, and with what.
  test('never have a live reading without its caution, nor a dead test without isolation', () => {
    const job = begun('Home');
    const say = (asked: typeof next.asked) =>
      visitsOf(known({ job, next: { ...next, asked } }), [])[0]!.next;
    const said = say({ ...live, instrument: 'tester' } as typeof next.asked);
    expect(said).toMatch(/^Live work at E1 .*competent.*tester proved.*GS38/);
    expect(said).not.toMatch(/supply/);
    expect(say({ ...live, kind: 'dead' } as typeof next.asked)).toMatch(
      /^Isolated and proved dead: /,
    );
  });

  test('keep the next act while the engine is at it or they are laid aside, until they change', () => {
    const job = begun('Home');
    const before = visitsOf(known({ job }), []);
    expect(before[0]!.next).not.toBe('');
    expect(visitsOf(known({ job, choosing: true }), before)).toEqual(before);
    expect(visitsOf(known({ jobs: [job] }), before)).toEqual(before);
    const changed = leaveOut(job, 'x', how);
    expect(visitsOf(known({ jobs: [changed] }), before)[0]!.next).toBe('');
  });
});
