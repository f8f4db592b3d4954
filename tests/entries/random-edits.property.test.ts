import { describe, expect, it } from 'vitest';
import { checkEntries } from '../../src/entries/index.ts';
import { property, SEED } from '../support/property.ts';
import { type Random, random } from '../support/random.ts';
import { inMemory, ROOT, textOf, valid } from './fixture.ts';

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
function damaged({ below, pick }: Random): readonly [file: string, text: string] {
  const file = pick(FILES);
  let text = textOf(file);
  for (let i = 1 + below(3); i > 0; i--) {
    const at = below(text.length + 1);
    text = text.slice(0, at) + pick(BITS) + text.slice(at + below(12));
  }
  return [file, text];
}

const check = (file: string, text: string) =>
  checkEntries(ROOT, inMemory({ ...valid, [file]: text }));

describe('a file damaged anywhere', () => {
  property('is read or reported, never a crash', 200, (from) => {
    const [file, text] = damaged(from);
    const { problems, entries } = check(file, text);
    const lines = text.split('\n').length;
    for (const problem of problems) {
      const { line, column } = problem.position;
      expect(column).toBeGreaterThan(0);
      if (problem.file === file) expect(line).toBeLessThanOrEqual(lines);
      expect(problem.message).not.toMatch(/undefined|\[object|NaN|Error/);
    }
    if (problems.length === 0) expect(entries.devices.size + entries.systems.size).toBe(8);
  });

  it(`is reported more often than not, of 50 from seed ${SEED}`, () => {
    const files = Array.from({ length: 50 }, (_, i) => damaged(random(SEED + i)));
    expect(files.filter((one) => check(...one).problems.length > 0).length).toBeGreaterThan(25);
  });
});
