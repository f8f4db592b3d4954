import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { edited } from './fixture.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const VALID = fileURLToPath(new URL('../fixtures/entries/valid', import.meta.url));
let bad: string;

function check(...words: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['src/cli/check.ts', ...words], {
    cwd: ROOT,
    encoding: 'utf8',
  });
  // A slow machine is told how far the check is; what is wrong is never said there.
  const told = stderr.replaceAll(/^(\d\/\d .*|Done in .*)\n/gm, '');
  return { status, stdout, stderr: told };
}

beforeAll(() => {
  bad = mkdtempSync(join(tmpdir(), 'entries-'));
  cpSync(VALID, bad, { recursive: true });
  const system = edited(
    'systems/plain-bench.mdx',
    ['S1.call feed]', 'S1.call fed]'],
    ['size: 2.5', 'size: 3'],
  );
  writeFileSync(join(bad, 'systems/plain-bench.mdx'), system['systems/plain-bench.mdx']!);
  writeFileSync(join(bad, 'glossary/spur.mdx'), '');
});
afterAll(() => rmSync(bad, { recursive: true }));

describe('npm run check', () => {
  it('says how many entries are in order', () => {
    expect(check(VALID)).toEqual({ status: 0, stdout: '14 entries in order\n', stderr: '' });
  });

  it('prints every problem, then how many in how many files, and fails', () => {
    const { status, stdout, stderr } = check(bad);
    expect(status).toBe(1);
    expect(stderr).toBe('');
    expect(stdout).toMatch(/glossary\/spur\.mdx:1:1 {2}file-empty\n/);
    expect(stdout).toMatch(/systems\/plain-bench\.mdx:16:11 {2}value-not-allowed\n/);
    expect(stdout).toMatch(/\n\n2 problems in 2 files\n$/);
    expect(stdout).not.toMatch(/node:internal|\.ts:\d/);
  });

  it('fails on a folder that is not there', () => {
    const { status, stdout } = check('no/such/folder');
    expect(status).toBe(1);
    expect(stdout).toBe(
      'no/such/folder:1:1  folder-missing\n  there is no such folder\n\n1 problem in 1 file\n',
    );
  });

  it('explains a code', () => {
    const { status, stdout } = check('--explain', 'core-to-itself');
    expect(status).toBe(0);
    expect(stdout).toBe(
      'core-to-itself: Conductor from a terminal to itself\nIt joins nothing.\nTo put it right: Correct one of its ends.\n',
    );
  });

  it('says how it is used when it is used wrongly', () => {
    const { status, stderr } = check('--fast');
    expect(status).toBe(2);
    expect(stderr).toMatch(/^Unknown option '--fast'\nnpm run check \[-- folder\]/);
    expect(check('--explain', 'nothing').status).toBe(2);
  });
});
