import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ownVersion } from '../../src/folder/index.ts';

/** The manager's day with nothing but the package and README: packed, installed, typed as it says. */
let work: string;
let firm: string;
let server: ChildProcess | undefined;

/** The surroundings of a reader, without what this runner of tests and npm set for themselves. */
const surroundings = Object.fromEntries(
  Object.entries(process.env).filter(
    ([name]) =>
      !/^(npm_|PROVELINE_|VITEST|NODE_ENV$|NODE_OPTIONS$|MODE$|DEV$|PROD$|SSR$|SITE_FOLDER$|INIT_CWD$)/.test(
        name,
      ),
  ),
);

function run(command: string, cwd = firm) {
  const { status, stdout, stderr } = spawnSync('sh', ['-c', command], {
    cwd,
    encoding: 'utf8',
    // A name for commits that is nobody's of this machine; npm keeps what it fetched.
    env: { ...surroundings, GIT_CONFIG_GLOBAL: join(work, '.gitconfig') },
  });
  return { status, said: `${stdout}${stderr}` };
}
/** Runs what must go well, and gives what it said. */
function done(command: string, cwd = firm): string {
  const { status, said } = run(command, cwd);
  expect([command, status, said]).toEqual([command, 0, said]);
  return said;
}

/** Every file of a folder with its size and time. */
const stateOf = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => {
      const { size, mtimeMs } = statSync(join(parentPath, name));
      return `${parentPath}/${name} ${size} ${mtimeMs}`;
    })
    .toSorted();
const edit = (file: string, from: string | RegExp, to: string) => {
  const text = readFileSync(join(firm, file), 'utf8');
  expect(text).toMatch(from);
  writeFileSync(join(firm, file), text.replace(from, to));
};

/** Commands of a block of the README, one a line: the first after a text, what is said of it left out. */
function readmeBlock(after: string): string[] {
  const [, rest = ''] = readFileSync('README.md', 'utf8').split(after);
  const [, block = ''] = /```sh\n([\s\S]*?)```/.exec(rest) ?? [];
  return block
    .trim()
    .split('\n')
    .map((line) => line.replace(/ +# .*$/, ''));
}
const DAY = readmeBlock("\n## A firm's repository\n");
/** The command of the day that begins so. */
const ofDay = (start: string) => {
  const found = DAY.filter((line) => line.startsWith(start));
  expect(found, `one line of README begins ${start}`).toHaveLength(1);
  return found[0]!;
};

let installed: string[];
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'package-'));
  firm = join(work, 'our-firm');
  mkdirSync(firm);
  done(`npm pack --pack-destination ${work}`, resolve('.'));
  const install = ofDay('npm install').replace(/\d+\.\d+\.\d+/, ownVersion());
  done(`${install} --prefer-offline --no-audit --no-fund`);
  installed = stateOf(join(firm, 'node_modules/proveline'));
});
afterAll(() => {
  server?.kill();
  rmSync(work, { recursive: true, force: true });
});

test('says what it does, and what it needs, before there is a firm', () => {
  expect(done('npx proveline --version').trim()).toBe(ownVersion());
  expect(done('npx proveline --help')).toContain('npx proveline COMMAND');
  const lost = run('npx proveline build');
  expect(lost.status).toBe(1);
  expect(lost.said).toContain('There is no firm.yaml in');
  const unknown = run('npx proveline bulid');
  expect(unknown.status).toBe(2);
  expect(unknown.said).toContain('There is no command “bulid”');
});

test('makes the firm’s folder, a repository with one dependency', () => {
  const said = done(ofDay('npx proveline new firm'));
  expect(said).toContain('./ is the folder of Our Firm');
  const file = JSON.parse(readFileSync(join(firm, 'package.json'), 'utf8'));
  expect(Object.keys(file.dependencies)).toEqual(['proveline']);
  expect(file).toMatchObject({
    private: true,
    scripts: { build: 'proveline build', check: 'proveline check' },
  });
  done('git init --quiet .');
  const seen = done('git add --all && git diff --cached --name-only').trim().split('\n');
  expect(seen.filter((path) => !path.startsWith('schemas/'))).toEqual([
    '.gitignore',
    'firm.yaml',
    'package-lock.json',
    'package.json',
    'wiring.csv',
  ]);
  // One arrangement is enough to build on, and quick.
  const others = readdirSync('content/systems').filter((name) => !/^combi-two-wire\./.test(name));
  const hidden = others.flatMap((name) =>
    name.endsWith('.mdx') ? [`systems/${name.slice(0, -'.mdx'.length)}`] : [],
  );
  expect(hidden.length).toBeGreaterThan(5);
  edit('firm.yaml', /^hide: \[\]/m, `hide: [${hidden.join(', ')}]`);
  edit('firm.yaml', /^base: \/ /m, 'base: /reference/ ');
});

test('writes a standard and a system, and says what is wrong with them', () => {
  done(ofDay('npx proveline new standard'));
  const said = done(ofDay('npx proveline new system'));
  expect(said).toContain('npm run review -- system our-combi --by "your name"\n');
  // The folder’s scripts bear the names by which commands are spoken of.
  expect(done(ofDay('npx proveline check'))).toMatch(/\d+ entries in order/);
  expect(done('npm run check')).toMatch(/\d+ entries in order/);
  edit('content/systems/our-combi.mdx', 'length: ', 'lenght: ');
  const { status, said: wrong } = run('npx proveline check', join(firm, 'content/systems'));
  expect(status).toBe(1);
  expect(wrong).toMatch(/our-combi\.mdx:\d+:5 {2}key-unknown/);
  edit('content/systems/our-combi.mdx', 'lenght: ', 'length: ');
  expect(done('npm run import -- wiring.csv --system our-combi')).toContain('3 cables');
});

test('publishes nothing that nobody has reviewed', () => {
  const refused = run(ofDay('npx proveline build'));
  expect(refused.status).toBe(1);
  expect(refused.said).toContain('review-missing');
  edit(
    'content/systems/our-combi.mdx',
    /^summary: .*$/m,
    'summary: A room stat closes the boiler’s call loop, wired as we wire it.',
  );
  for (const what of ['standard', 'system'])
    expect(done(ofDay(`npx proveline review ${what}`))).toContain('reviewed by B. Name');
});

test('builds and serves it, as a published address must be served', async () => {
  // As README has it for a forge's pages: a branch in a repository beside the firm's.
  const forge = readmeBlock("**A git forge's static pages**").map((line) =>
    line.replace('ORIGIN', join(work, 'forge.git')),
  );
  done(`git init --quiet --bare forge.git`, work);
  expect(forge.filter((line) => line.startsWith('npx'))).toEqual([ofDay('npx proveline build')]);
  const who = 'git config --global user.name A && git config --global user.email a@firm.example';
  const said = done(`${who} && ${forge.join(' && ')}`);
  expect(said).toContain('Our Firm: 2 systems');
  const pushed = done('git ls-tree -r --name-only pages', join(work, 'forge.git')).split('\n');
  expect(pushed).toContain('systems/our-combi/index.html');
  expect(pushed.some((path) => path.startsWith('_astro/'))).toBe(true);
  expect(readFileSync(join(firm, 'dist/systems/our-combi/index.html'), 'utf8')).toContain(
    'Our combi',
  );
  const program = join(firm, 'node_modules/.bin/proveline');
  server = spawn(program, ['serve'], { cwd: firm, env: { ...surroundings, PORT: '0' } });
  const address = await new Promise<string>((told, failed) => {
    let said = '';
    for (const stream of [server!.stdout!, server!.stderr!])
      stream.on('data', (part: Buffer) => {
        said += part;
        const found = /at (http:\S+)/.exec(said)?.[1];
        if (found) told(found);
      });
    server!.on('exit', () => failed(new Error(`the server ended: ${said}`)));
  });
  expect(new URL(address).pathname).toBe('/reference/');
  expect(done(`npx proveline check --published ${address}`)).toContain('served as it must be');
});

test('stops in the night where an entry is not in order, the site as it was', () => {
  const job = readmeBlock('**A nightly job**');
  expect(job.slice(0, 2)).toEqual(['#!/bin/sh', 'set -e']);
  const nightly = job.find((line) => line.startsWith('npx proveline build'))!;
  const before = stateOf(join(firm, 'dist'));
  edit('content/systems/our-combi.mdx', 'length: ', 'lenght: ');
  const refused = run(`set -e\n${nightly}\necho went on`);
  expect(refused.status).toBe(1);
  expect(refused.said).toContain('key-unknown');
  expect(refused.said).not.toContain('went on');
  edit('content/systems/our-combi.mdx', 'lenght: ', 'length: ');
  expect(stateOf(join(firm, 'dist'))).toEqual(before);
  done(nightly);
  expect(existsSync(join(firm, 'dist/data/changes.json'))).toBe(true);
});

test('binds the firm’s paper', () => {
  expect(done(`${ofDay('npx proveline pack')} --only our-combi`)).toContain('of Our Firm');
  expect(existsSync(join(firm, 'dist/pack/reference.pdf'))).toBe(true);
});

test('brings the entries to its version', () => {
  expect(existsSync(join(firm, '.astro'))).toBe(false);
  expect(done('npx proveline upgrade')).toBe(
    `Nothing had to be changed for Proveline ${ownVersion()}.\n`,
  );
  // The reference’s system-boiler is heat-only-boiler now, see its entry.
  writeFileSync(
    join(firm, 'content/devices/system-boiler.mdx'),
    '---\nextends: system-boiler\naliases: [our boiler]\n---\n',
  );
  expect(done('npx proveline upgrade')).toContain(
    'content/devices/system-boiler.mdx: now content/devices/heat-only-boiler.mdx',
  );
  expect(done('npx proveline check')).toMatch(/\d+ entries in order/);
});

test('writes into the firm’s folder alone, and what it keeps is not the firm’s', () => {
  expect(stateOf(join(firm, 'node_modules/proveline'))).toEqual(installed);
  expect(readdirSync(work).toSorted()).toEqual([
    '.gitconfig',
    'forge.git',
    'our-firm',
    'pages.git',
    `proveline-${ownVersion()}.tgz`,
  ]);
  const seen = done('git status --short --untracked-files=all').split('\n');
  expect(seen.filter((line) => /\.proveline|dist|node_modules|\.astro/.test(line))).toEqual([]);
  // Beside packages, what was laid out and the site, only what a firm writes.
  expect(
    readdirSync(firm)
      .filter((name) => name !== '.git')
      .toSorted(),
  ).toEqual(
    '.gitignore .proveline content dist firm.yaml node_modules package-lock.json package.json reviews schemas wiring.csv'.split(
      ' ',
    ),
  );
});
