import { describe, expect, it } from 'vitest';
import { HISTORIES } from '../../src/diagnosis/index.ts';
import { beginningIn, beginningQuery } from '../../src/job/address.ts';
import { newJob } from '../../src/job/job.ts';
import { Observation } from '../../src/job/job-schema.ts';

const seen = [
  { outcome: 'E1.radiators', mode: 'heating', answer: 'not seen' },
  { outcome: 'E1.hot tap', mode: 'hot-tap', answer: 'seen' },
  { outcome: 'Q3.swings', mode: 'both', answer: 'comes and goes' },
] as const;

describe('the address at which a job begins', () => {
  it('is read as it was written', () => {
    for (const history of [...HISTORIES, null])
      for (const [system, complaint] of [
        ['combi-two-wire', null],
        [null, 'fuse-blows'],
        ['combi-two-wire', 'fuse-blows'],
      ] as const) {
        const query = beginningQuery({ system, complaint, seen, history });
        expect(beginningIn(query)).toEqual({
          system,
          complaint,
          specification: null,
          seen,
          history,
          foreign: [],
        });
        expect(new URL(query, 'https://site.example/job/').search).toBe(query);
      }
  });

  it('names an arrangement composed from parts, as its own address says it', () => {
    const of = 'v=1&heat=combi-volt-free~a+way&heating=a,b;c&additions=d';
    const query = beginningQuery({
      system: null,
      complaint: 'fuse-blows',
      specification: of,
      seen: [],
      history: null,
    });
    expect(beginningIn(query)).toMatchObject({ specification: of, complaint: 'fuse-blows' });
    expect(beginningIn(`?of=${encodeURIComponent(of)}`)).toMatchObject({ specification: of });
    for (const bad of ['', 'javascript:alert(1)', `v=1&${'x'.repeat(2000)}`])
      expect(beginningIn(`?of=${encodeURIComponent(bad)}`)).toBeNull();
  });

  it('names neither complaint nor system, or nothing that is seen', () => {
    expect(beginningIn('')).toBeNull();
    expect(beginningIn('?seen=E1.burner@heating:no')).toBeNull();
    const bare = beginningQuery({ system: 'x', complaint: null, seen: [], history: null });
    expect(bare).toBe('?system=x');
    expect(beginningIn(bare)?.seen).toEqual([]);
    expect(beginningIn('?system=x&history=never')?.history).toBeNull();
  });

  it.each([
    'E1.burner@heating',
    'E1.burner@heating:maybe',
    'E1.burner@heating:constructor',
    'E1.burner:no',
    '@heating:no',
    `${'x'.repeat(200)}@heating:no`,
    'E1.burner@Heating Mode:no',
    '<img src=x onerror=alert(1)>',
    '',
  ])('gives back what says nothing that is seen, and keeps the rest: %s', (text) => {
    const query = `?system=x&seen=${encodeURIComponent(text)}&seen=E1.burner@heating:no`;
    expect(beginningIn(query)).toEqual({
      system: 'x',
      complaint: null,
      specification: null,
      history: null,
      seen: [{ outcome: 'E1.burner', mode: 'heating', answer: 'not seen' }],
      foreign: [text],
    });
  });
});

describe('a job begun with what is seen', () => {
  const system = { id: 'x', title: 'X', wiring: 1, mode: 'standby' };
  const words = { name: '', place: '' };

  it('holds each look once, and stands in the mode of the first', () => {
    const job = newJob(system, { ...words, seen: [...seen, { ...seen[0], answer: 'seen' }] });
    expect(job.entries.map(({ observation, round }) => [observation, round])).toEqual([
      [{ kind: 'look', ...seen[0], answer: 'seen' }, 0],
      [{ kind: 'look', ...seen[1] }, 0],
      [{ kind: 'look', ...seen[2] }, 0],
    ]);
    expect(job.mode).toBe('heating');
    for (const { observation } of job.entries)
      expect(Observation.safeParse(observation).success).toBe(true);
  });

  it('stands where the system does when nothing is', () => {
    expect(newJob(system, words)).toMatchObject({ mode: 'standby', entries: [] });
  });
});
