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

/** The manager's day with nothing but the package: packed, installed, and typed as README says. */
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
    env: surroundings,
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

let installed: string[];
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'package-'));
  firm = join(work, 'our-firm');
  mkdirSync(firm);
  done(`npm pack --pack-destination ${work}`, resolve('.'));
  const tarball = `../proveline-${ownVersion()}.tgz`;
  done(`npm install ${tarball} --prefer-offline --no-audit --no-fund`);
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
  const said = done('npx proveline new firm --name "Our Firm"');
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
});

test('writes a standard and a system, and says what is wrong with them', () => {
  done('npx proveline new standard --replaces volt-drop');
  const said = done('npx proveline new system --like combi-two-wire --title "Our combi"');
  expect(said).toContain('npm run review -- system our-combi --by "your name"\n');
  // The folder’s scripts bear the names by which commands are spoken of.
  expect(done('npm run check')).toMatch(/\d+ entries in order/);
  edit('content/systems/our-combi.mdx', 'length: ', 'lenght: ');
  const { status, said: wrong } = run('npx proveline check', join(firm, 'content/systems'));
  expect(status).toBe(1);
  expect(wrong).toMatch(/our-combi\.mdx:\d+:5 {2}key-unknown/);
  edit('content/systems/our-combi.mdx', 'lenght: ', 'length: ');
  expect(done('npm run import -- wiring.csv --system our-combi')).toContain('3 cables');
});

test('builds and serves it, as a published address must be served', async () => {
  expect(done('npx proveline build')).toContain('Our Firm: 2 systems');
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
  expect(done(`npx proveline check --published ${address}`)).toContain('served as it must be');
});

test('binds the firm’s paper', () => {
  expect(done('npx proveline pack --only our-combi')).toContain('of Our Firm');
  expect(existsSync(join(firm, 'dist/pack/reference.pdf'))).toBe(true);
});

test('brings the entries to its version', () => {
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
  expect(readdirSync(work).toSorted()).toEqual(['our-firm', `proveline-${ownVersion()}.tgz`]);
  const seen = done('git status --short --untracked-files=all').split('\n');
  expect(seen.filter((line) => /\.proveline|dist|node_modules|\.astro/.test(line))).toEqual([]);
  // Beside packages, what was laid out and the site, only what a firm writes.
  expect(
    readdirSync(firm)
      .filter((name) => name !== '.git')
      .toSorted(),
  ).toEqual(
    '.gitignore .proveline content dist firm.yaml node_modules package-lock.json package.json schemas wiring.csv'.split(
      ' ',
    ),
  );
});
