import { afterEach, describe, expect, test, vi } from 'vitest';
import { located } from '../../src/firm/index.ts';
import { asTyped } from '../../src/folder/index.ts';
import { checkFirm } from '../firm/memory.ts';
import { STRICT } from '../firm/strict-firm.ts';

afterEach(() => vi.unstubAllEnvs());
const inPackage = () => vi.stubEnv('PROVELINE_HOME', process.cwd());

describe('a command that is spoken of', () => {
  test.each([
    ['npm run check', 'npx proveline check'],
    ['npm run check -- --firm FOLDER --exceptions', 'npx proveline check --exceptions'],
    ['npm run new -- firm FOLDER', 'npx proveline new firm FOLDER'],
    [
      'npm run pack [-- --from folder] [--only name]',
      'npx proveline pack [--from folder] [--only name]',
    ],
    [
      'Read it, then: npm run review -- term rag --by "your name".',
      'Read it, then: npx proveline review term rag --by "your name".',
    ],
    ['BASE_PATH=/field/ npm run build, or base', 'BASE_PATH=/field/ npx proveline build, or base'],
  ])('%s', (written, typed) => {
    expect(asTyped(written)).toBe(written);
    inPackage();
    expect(asTyped(written)).toBe(typed);
  });
});

test('the ways out of a stricter rule are those of the folder it is told in', () => {
  const [problem] = checkFirm(STRICT).problems;
  const ways = (command: string) =>
    `Three ways: an exception with its reason for each system (${command} writes them as drafts); an entry of yours that extends or replaces the system and meets it; or the system hidden in firm.yaml`;
  expect(located(problem!).mend).toBe(ways('npm run check -- --firm FOLDER --exceptions'));
  inPackage();
  expect(located(problem!).mend).toBe(ways('npx proveline check --exceptions'));
});
