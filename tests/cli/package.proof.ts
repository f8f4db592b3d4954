import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ownVersion } from '../../src/folder/index.ts';
import { managersDay } from './managers-day.ts';
import { Newcomer, ofDay, readmeBlock, stateOf } from './newcomer.ts';

/** Proveline with nothing but the package and README: packed, installed, typed as it says. */
const person = new Newcomer();
const { work, firm } = person;

let installed: string[];
beforeAll(() => {
  person.install();
  installed = stateOf(join(firm, 'node_modules/proveline'));
});
afterAll(() => person.leave());

test('says what it does, and what it needs, before there is a firm', () => {
  expect(person.done('npx proveline --version').trim()).toBe(ownVersion());
  expect(person.done('npx proveline --help')).toContain('npx proveline COMMAND');
  const lost = person.run('npx proveline build');
  expect(lost.status).toBe(1);
  expect(lost.said).toContain('There is no firm.yaml in');
  const unknown = person.run('npx proveline bulid');
  expect(unknown.status).toBe(2);
  expect(unknown.said).toContain('There is no command “bulid”');
});

managersDay(person);

test('the firm’s folder is a repository with one dependency', () => {
  const file = JSON.parse(person.read('package.json'));
  expect(Object.keys(file.dependencies)).toEqual(['proveline']);
  expect(file).toMatchObject({
    private: true,
    scripts: { build: 'proveline build', check: 'proveline check' },
  });
  person.done('git init --quiet .');
  const seen = person.done('git add --all && git diff --cached --name-only').trim().split('\n');
  expect(seen.filter((path) => !/^(schemas|content|reviews|releases|field)\//.test(path))).toEqual([
    '.gitignore',
    'firm.yaml',
    'package-lock.json',
    'package.json',
    'wiring.csv',
  ]);
});

test('writes a system, and says what is wrong with it', () => {
  const said = person.done(ofDay('npx proveline new system'));
  expect(said).toContain('npx proveline review system our-combi --by "your name"\n');
  // The folder’s scripts bear the names by which commands are spoken of.
  expect(person.done(ofDay('npx proveline check'))).toMatch(/\d+ entries in order/);
  expect(person.done('npm run check')).toMatch(/\d+ entries in order/);
  person.edit('content/systems/our-combi.mdx', 'length: ', 'lenght: ');
  const { status, said: wrong } = person.run('npx proveline check', join(firm, 'content/systems'));
  expect(status).toBe(1);
  expect(wrong).toMatch(/our-combi\.mdx:\d+:5 {2}key-unknown/);
  person.edit('content/systems/our-combi.mdx', 'lenght: ', 'length: ');
  // The firm's own rule of this day allows no such run as the table's.
  person.edit('wiring.csv', ',18,', ',8,');
  expect(person.done('npm run import -- wiring.csv --system our-combi')).toContain('3 cables');
});

test('publishes nothing that nobody has reviewed', () => {
  expect(person.refused(ofDay('npx proveline build'))).toContain('review-missing');
  person.edit('content/systems/our-combi.mdx', '# Nobody has', 'author: A. Name\n# Nobody has');
  person.edit(
    'content/systems/our-combi.mdx',
    /^summary: .*$/m,
    'summary: A room stat closes the boiler’s call loop, wired as we wire it.',
  );
  expect(person.done(ofDay('npx proveline review system'))).toContain('reviewed by B. Name');
});

test('builds and serves it, as a published address must be served', async () => {
  // As README has it for a forge's pages: a branch in a repository beside the firm's.
  const forge = readmeBlock("**A git forge's static pages**").map((line) =>
    line.replace('ORIGIN', join(work, 'forge.git')),
  );
  person.done(`git init --quiet --bare forge.git`, work);
  expect(forge.filter((line) => line.startsWith('npx'))).toEqual([ofDay('npx proveline build')]);
  const who = 'git config --global user.name A && git config --global user.email a@firm.example';
  const said = person.done(`${who} && ${forge.join(' && ')}`);
  expect(said).toContain('Our Firm: 4 systems');
  const pushed = person
    .done('git ls-tree -r --name-only pages', join(work, 'forge.git'))
    .split('\n');
  expect(pushed).toContain('systems/our-combi/index.html');
  expect(pushed.some((path) => path.startsWith('_astro/'))).toBe(true);
  expect(person.read('dist/systems/our-combi/index.html')).toContain('Our combi');
  const { found: address, stop } = await person.started(
    ofDay('npx proveline serve'),
    /at (http:\S+)/,
  );
  expect(new URL(address).pathname).toBe('/reference/');
  expect(person.done(`npx proveline check --published ${address}`)).toContain(
    'served as it must be',
  );
  stop();
});

test('stops in the night where an entry is not in order, the site as it was', () => {
  const job = readmeBlock('**A nightly job**');
  expect(job.slice(0, 2)).toEqual(['#!/bin/sh', 'set -e']);
  const nightly = job.find((line) => line.startsWith('npx proveline build'))!;
  const before = stateOf(join(firm, 'dist'));
  person.edit('content/systems/our-combi.mdx', 'length: ', 'lenght: ');
  const refused = person.run(`set -e\n${nightly}\necho went on`);
  expect(refused.status).toBe(1);
  expect(refused.said).toContain('key-unknown');
  expect(refused.said).not.toContain('went on');
  person.edit('content/systems/our-combi.mdx', 'lenght: ', 'length: ');
  expect(stateOf(join(firm, 'dist'))).toEqual(before);
  person.done(nightly);
  expect(existsSync(join(firm, 'dist/data/changes.json'))).toBe(true);
});

test('binds the firm’s paper', () => {
  expect(person.done(`${ofDay('npx proveline pack')} --only our-combi`)).toContain('of Our Firm');
  expect(existsSync(join(firm, 'dist/pack/reference.pdf'))).toBe(true);
});

test('brings the entries to its version', () => {
  expect(existsSync(join(firm, '.astro'))).toBe(false);
  expect(person.done('npx proveline upgrade')).toBe(
    `Nothing had to be changed for Proveline ${ownVersion()}.\n`,
  );
  // The reference’s system-boiler is heat-only-boiler now, see its entry.
  writeFileSync(
    join(firm, 'content/devices/system-boiler.mdx'),
    '---\nextends: system-boiler\naliases: [our boiler]\n---\n',
  );
  expect(person.done('npx proveline upgrade')).toContain(
    'content/devices/system-boiler.mdx: now content/devices/heat-only-boiler.mdx',
  );
  expect(person.done('npx proveline check')).toMatch(/\d+ entries in order/);
});

test('writes into the firm’s folder alone, and what it keeps is not the firm’s', () => {
  expect(stateOf(join(firm, 'node_modules/proveline'))).toEqual(installed);
  expect(readdirSync(work).toSorted()).toEqual([
    '.gitconfig',
    'as-it-was',
    'first-site',
    'forge.git',
    'from-the-field',
    'our-firm',
    'pages.git',
    `proveline-${ownVersion()}.tgz`,
  ]);
  const seen = person.done('git status --short --untracked-files=all').split('\n');
  expect(seen.filter((line) => /\.proveline|dist|node_modules|\.astro/.test(line))).toEqual([]);
  // Beside packages, what was laid out and the site, only what a firm writes.
  expect(
    readdirSync(firm)
      .filter((name) => name !== '.git')
      .toSorted(),
  ).toEqual(
    '.gitignore .proveline content dist field firm.yaml node_modules package-lock.json package.json releases reviews schemas wiring.csv'.split(
      ' ',
    ),
  );
});
