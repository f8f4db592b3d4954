import { describe, expect, it } from 'vitest';
import { checkEntries } from '../../src/entries/index.ts';
import { inMemory, ROOT, textOf, valid } from './bench.ts';

/** Numbers from 0 to 1, the same for the same seed (mulberry32). */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

const BITS = [
  '',
  ' ',
  '\n',
  '\t',
  ':',
  '-',
  '---\n',
  '[',
  ']',
  '{',
  '}',
  '"',
  "'",
  '#',
  '&a ',
  '*a',
  '!t ',
  '? ',
  '|',
  '<',
  '\r',
  '0',
  '-1',
  'é',
  '😀',
  '\0',
  'null',
  '__proto__: 1\n',
  'constructor',
];
const FILES = Object.keys(valid);

/** One file with one to three stretches of up to twelve characters replaced. */
function damaged(random: () => number): readonly [file: string, text: string] {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const file = pick(FILES);
  let text = textOf(file);
  for (let i = Math.ceil(random() * 3); i > 0; i--) {
    const at = Math.floor(random() * text.length);
    const length = Math.floor(random() * 12);
    text = text.slice(0, at) + pick(BITS) + text.slice(at + length);
  }
  return [file, text];
}

describe('a file damaged at random', () => {
  it.each([1, 2, 3, 4])('is read or reported, never a crash: seed %i', (seed) => {
    const random = seeded(seed);
    let reported = 0;
    for (let i = 0; i < 50; i++) {
      const [file, text] = damaged(random);
      const { problems, entries } = checkEntries(ROOT, inMemory({ ...valid, [file]: text }));
      const lines = text.split('\n').length;
      for (const problem of problems) {
        const { line, column } = problem.position;
        expect(column).toBeGreaterThan(0);
        if (problem.file === file) expect(line).toBeLessThanOrEqual(lines);
        expect(problem.message).not.toMatch(/undefined|\[object|NaN|Error/);
      }
      if (problems.length > 0) reported++;
      else expect(entries.devices.size + entries.systems.size).toBe(8);
    }
    expect(reported).toBeGreaterThan(25);
  });
});
