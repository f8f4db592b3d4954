import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { codeKey, forgetCode } from '../../src/reference/code-key.ts';

const DIAGNOSIS = 'src/diagnosis/index.ts';
let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'code-'));
  for (const folder of ['src', 'schemas']) cpSync(folder, join(root, folder), { recursive: true });
  // All packages, and none of what was kept beside them.
  mkdirSync(join(root, 'node_modules'));
  for (const name of readdirSync('node_modules').filter((one) => !one.startsWith('.')))
    symlinkSync(resolve('node_modules', name), join(root, 'node_modules', name));
});
afterEach(forgetCode);
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** The key of the diagnosis once a text in one of its sources is another. */
function keyAfter(file: string, from: string | RegExp, to: string): string | null {
  const path = join(root, file);
  const text = readFileSync(path, 'utf8');
  const edited = text.replace(from, to);
  expect(edited, `${file} says ${from}`).not.toBe(text);
  writeFileSync(path, edited);
  forgetCode();
  try {
    return codeKey(DIAGNOSIS, root);
  } finally {
    writeFileSync(path, text);
    forgetCode();
  }
}

describe('the key of code', () => {
  it('is the same wherever the sources lie', () => {
    expect(codeKey(DIAGNOSIS, root)).toBe(codeKey(DIAGNOSIS));
  });

  it('stays with a comment, a blank line, a type and a room it does not use', () => {
    const before = codeKey(DIAGNOSIS, root);
    const file = 'src/circuit/constants.ts';
    expect(keyAfter(file, /^/, '/** Said anew. */\n\n')).toBe(before);
    expect(keyAfter(file, /$/, 'export type More = number;\n')).toBe(before);
    expect(keyAfter('src/publish/index.ts', /$/, 'export const more = 1;\n')).toBe(before);
  });

  it.each([
    ['of the engine', 'src/circuit/constants.ts', 'CLOSED_CONTACT_OHMS = 0.05'],
    ['of its own', 'src/diagnosis/tests/limits.ts', 'JOINED_OHMS = ohms(2)'],
    ['that is published', 'src/published/capacitance.ts', 'CORE_LEAKAGE_PER_METRE = 1e-10'],
  ])('changes with a value %s', (_, file, text) => {
    const before = codeKey(DIAGNOSIS, root);
    const changed = keyAfter(file, text, `${text.split(' = ')[0]} = 0.125`);
    expect(changed).not.toBe(before);
    expect(changed).not.toBeNull();
  });

  it('is none where the sources are not', () => {
    expect(codeKey('src/nowhere.ts', root)).toBeNull();
  });
});
