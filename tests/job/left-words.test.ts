import { describe, expect, test } from 'vitest';
import type { FoundRepair } from '../../src/job/findings.ts';
import { addEntry, newJob } from '../../src/job/job.ts';
import { leftWords } from '../../src/job/left-words.ts';

const system = { id: 'x', title: 'X', wiring: 1, mode: 'heating' };
const words = { name: '', place: '' };
const drawn = { sound: false } as FoundRepair;
const sound = { sound: true } as FoundRepair;

describe('where no test tells more', () => {
  const job = newJob(system, words);

  test('it is said how much is left, and how likely what is not on the drawing is', () => {
    const left = (repairs: FoundRepair[]) => leftWords(job, { repairs, notAsShown: 0.31 }).left;
    expect(left([drawn, sound])).toBe(
      'One cause on the drawing is left. It may also be something that is not on the drawing: 31 %, unlikely.',
    );
    expect(left([drawn, drawn])).toMatch(/^What is left reads the same .* drawing: 31 %/);
    expect(left([sound])).toBe('Nothing on the drawing accounts for what was entered.');
  });

  test('a fuse that has blown, told or found, asks what it feeds to be taken off in turn', () => {
    const isFuse = (one: typeof job) =>
      leftWords(one, { repairs: [drawn], notAsShown: 0.1 }).isFuse;
    expect(isFuse(job)).toBe(false);
    expect(isFuse(newJob(system, { ...words, blown: ['Q1/fuse'] }))).toBe(true);
    const fuse = { kind: 'fuse', mode: 'isolated', branch: 'Q1/fuse' } as const;
    expect(isFuse(addEntry(job, { ...fuse, answer: 'blown' }))).toBe(true);
    expect(isFuse(addEntry(job, { ...fuse, answer: 'intact' }))).toBe(false);
  });
});
