import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readOptions } from '../../src/cli/options.ts';
import { typedPath } from '../../src/folder/index.ts';

/** A firm's folder whose name, like the folder it lies in, holds a space. */
let firm: string;
let work: string;

/** Runs a command of the clone as it is typed; every one ends with a message and no stack. */
function run(command: string, ...words: readonly string[]) {
  const { PROVELINE_FIRM: _, ...env } = process.env;
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [`src/cli/${command}.ts`, ...words],
    { encoding: 'utf8', env },
  );
  // On a busy machine a command says how far it is.
  const said = `${stdout}${stderr}`.replaceAll(/^(?:\d+\/\d+ |Done in ).*\n/gm, '');
  expect(said).not.toMatch(/^\s+at .*:\d+:\d+\)?$/m);
  return { status, said, first: said.split('\n')[0] };
}

beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'our work '));
  firm = join(work, 'our firm');
  const { status, said } = run('new', 'firm', firm, '--name', 'Our Firm');
  const typed = typedPath(relative('.', firm));
  expect([status, typed.startsWith('"')]).toEqual([0, true]);
  // What is to be typed next can be: a shell takes its quoted path as one word.
  expect(said).toContain(`npm run dev -- --firm ${typed}\n`);
  const asShell = spawnSync('sh', ['-c', `printf %s ${typed}`], { encoding: 'utf8' });
  expect(asShell.stdout).toBe(relative('.', firm));
  run('new', 'standard', '--firm', firm, '--replaces', 'volt-drop');
}, 60_000);
afterAll(() => rmSync(work, { recursive: true }));

test('the command that reviews is told as it has to be typed', () => {
  const { said } = run('check', '--firm', firm);
  expect(said).toContain(
    `npm run review -- standard volt-drop --by "your name" --firm ${typedPath(relative('.', firm))}`,
  );
});

test('an author is told where the entry says who wrote it', () => {
  const file = join(firm, 'content/standards/volt-drop.mdx');
  const before = readFileSync(file, 'utf8');
  writeFileSync(file, before.replace('title:', 'author: A. Manager\ntitle:'));
  const asked = ['standard', 'volt-drop', '--firm', firm, '--by', 'a manager', '--yes'];
  const { status, said } = run('review', ...asked);
  writeFileSync(file, before);
  expect([status, said]).toEqual([
    1,
    `A. Manager wrote this entry: a second person reviews it.\n  said at  ${relative('.', file)}:4\n  found    --by a manager\n  allowed  anybody else\n`,
  ]);
});

test.each([
  ['review', ['sytem', 'ours'], /^There is no kind of entry “sytem”; did you mean system\?/],
  ['release', ['--name', '2026.12'], /^Say --firm FOLDER: /],
  ['release', ['--firm', 'FIRM'], /^Say --name: /],
  ['release', ['2026.12', '--firm', 'FIRM'], /^“2026.12” belongs to no option/],
  [
    'changes',
    ['--firm', 'FIRM', '2026.11', '2026.12'],
    /^There is no release 2026\.11 .*none yet$/,
  ],
  ['check', ['FIRM'], /is the folder of a firm, as it holds firm\.yaml: npm run check -- --firm "/],
  ['check', ['--firm', 'FIRM', '--published'], /firm\.yaml does not say where the site is served/],
  ['check', ['--published'], /^There is no address to ask: say --published URL, or --firm FOLDER/],
  ['check', ['--firm', 'FIRM', '--firm', 'FIRM'], /^--firm is given twice/],
  [
    'serve',
    ['--out', 'FIRM'],
    /is the folder of a firm, not a built site.* --firm ".*" --out ".*-site"/,
  ],
  [
    'pack',
    ['--from', 'FIRM'],
    /is the folder of a firm, not a built site.* --firm ".*" --out ".*-site"/,
  ],
  ['pack', ['--firm', 'FIRM', '--from', 'NONE'], /Build one: npm run build -- --firm ".*" --out "/],
] as const)('%s %j names the cause first', (command, words, cause) => {
  const folders = new Map([
    ['FIRM', firm],
    ['NONE', join(work, 'none')],
  ]);
  const named = words.map((word: string) => folders.get(word) ?? word);
  const { status, first } = run(command, ...named);
  expect([status === 0, first]).toEqual([false, expect.stringMatching(cause)]);
  expect(readdirSync(firm)).not.toContain('releases');
});

test('the firm’s content folder is no firm’s folder, and its firm is said to lie above', () => {
  const { said } = run('check', '--firm', join(firm, 'content'));
  expect(said).toContain('so it is no firm’s folder; the one above it is\n');
});

test('a logo that is too large is told how large one may be', () => {
  const settings = join(firm, 'firm.yaml');
  const before = readFileSync(settings, 'utf8');
  writeFileSync(settings, before.replace(/^# logo: .*/m, 'logo: logo.png'));
  writeFileSync(join(firm, 'logo.png'), new Uint8Array(3_000_000));
  const { said } = run('check', '--firm', firm);
  writeFileSync(settings, before);
  rmSync(join(firm, 'logo.png'));
  expect(said).toMatch(
    /firm\.yaml:\d+:7 {2}logo-unfit\n {2}it has more than 100 KB, the most that a logo may have\n/,
  );
});

test('a published address is asked for once by the firm’s own file', () => {
  const settings = join(firm, 'firm.yaml');
  const before = readFileSync(settings, 'utf8');
  // RFC 2606: nothing answers at a name under .invalid.
  writeFileSync(
    settings,
    before
      .replace(/^# site: .*/m, 'site: https://firm.invalid')
      .replace('base: / ', 'base: /ours/ '),
  );
  const { status, said } = run('check', '--firm', firm, '--published');
  writeFileSync(settings, before);
  expect([status, said]).toEqual([
    1,
    expect.stringMatching(/^https:\/\/firm\.invalid\/ours\/ does not answer/m),
  ]);
});

test('an option of any command is given once', () => {
  const known = { firm: 'value', yes: 'flag' } as const;
  expect(() => readOptions(['--yes', '--firm', 'a', '--firm=b'], known, 'USE')).toThrow(
    '--firm is given twice: which of them is meant? Give it once\nUSE',
  );
  expect(readOptions(['--firm', 'a', '--yes'], known, '').options).toEqual({
    firm: 'a',
    yes: true,
  });
});

test.each([
  ['../our-firm', '../our-firm'],
  ['../our firm', '"../our firm"'],
  ['a$b`c"d\\e', '"a\\$b\\`c\\"d\\\\e"'],
])('a path %s is typed %s', (path, typed) => {
  expect(typedPath(path)).toBe(typed);
  const { stdout } = spawnSync('sh', ['-c', `printf %s ${typed}`], { encoding: 'utf8' });
  expect(stdout).toBe(path);
});
