import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BY_HAND } from './by-hand.ts';
import { node } from './node.ts';

/** What the tests of a changed copy need beside the packages. */
const COPIED = [
  'content',
  'public',
  'schemas',
  'src',
  'tests',
  'package.json',
  'tsconfig.json',
  'vitest.config.ts',
];

describe('a mutant made by hand', () => {
  let copy: string;
  beforeAll(() => {
    copy = mkdtempSync(join(tmpdir(), 'mutants-'));
    for (const name of COPIED) cpSync(resolve(name), join(copy, name), { recursive: true });
    symlinkSync(resolve('node_modules'), join(copy, 'node_modules'));
  });
  afterAll(() => rmSync(copy, { recursive: true, force: true }));

  /** Whether all pass; the first that fails says no, and the rest need not be tried. */
  const passes = (tests: readonly string[]) => {
    const vitest = join(copy, 'node_modules/vitest/vitest.mjs');
    const run = node(copy, vitest, 'run', '--project', 'unit', '--bail', '1', ...tests);
    // One that did not run at all has killed nothing.
    expect(run.stdout).toMatch(/Tests .*(passed|failed)/);
    return run.status === 0;
  };

  it('is noticed where nothing is changed: nothing is', () => {
    const tests = [...new Set(BY_HAND.flatMap((mutant) => mutant.tests))];
    expect(passes(tests)).toBe(true);
  });

  it.each(BY_HAND)('dies: $name', ({ file, was, becomes, tests }) => {
    const place = join(copy, file);
    const source = readFileSync(place, 'utf8');
    expect(source.split(was), `“${was}” stands once in ${file}`).toHaveLength(2);
    writeFileSync(
      place,
      source.replace(was, () => becomes),
    );
    try {
      expect(passes(tests)).toBe(false);
    } finally {
      writeFileSync(place, source);
    }
  });
});
