import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
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
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

/** Systems of the house that is built here: two are enough to tell one's pages from another's. */
const SYSTEMS = ['combi-two-wire', 'combi-volt-free'];
const SOURCES = ['src', 'schemas', 'public', 'content', 'astro.config.ts', 'tsconfig.json'];
const PACKAGES = ['package.json', 'package-lock.json'];

const house = mkdtempSync(join(tmpdir(), 'house-'));
const inHouse = (path: string) => join(house, path);

beforeAll(() => {
  for (const one of [...SOURCES, ...PACKAGES])
    cpSync(resolve(one), inHouse(one), { recursive: true });
  const hidden = readdirSync(inHouse('content/systems'))
    .map((file) => file.replace(/\.mdx$/, ''))
    .filter((id) => !SYSTEMS.includes(id));
  mkdirSync(inHouse('firm'));
  writeFileSync(
    inHouse('firm/firm.yaml'),
    `name: House\ncontact: { phone: 01632 960148 }\nhide: [${hidden.map((id) => `systems/${id}`).join(', ')}]\n`,
  );
  // The packages as they are here, but with a memory of its own.
  mkdirSync(inHouse('node_modules'));
  for (const name of readdirSync('node_modules'))
    if (!name.startsWith('.'))
      symlinkSync(resolve('node_modules', name), inHouse(`node_modules/${name}`));
});
afterAll(() => rmSync(house, { recursive: true, force: true }));

/** Builds the house as it stands now. */
function build(): string {
  const { NODE_ENV, MODE, DEV, PROD, SSR, VITEST, ...env } = process.env;
  const { status, stderr } = spawnSync(process.execPath, ['src/cli/build.ts', '--firm', 'firm'], {
    cwd: house,
    env,
    encoding: 'utf8',
  });
  expect(status, stderr).toBe(0);
  return stderr;
}

/** Every file built, with the hash of what it says. */
function built(): Record<string, string> {
  const files = readdirSync(inHouse('dist'), { recursive: true, withFileTypes: true });
  return Object.fromEntries(
    files
      .filter((file) => file.isFile())
      .map((file) => join(file.parentPath, file.name))
      .sort()
      .map((file) => [
        file.slice(inHouse('dist').length + 1),
        createHash('sha256').update(readFileSync(file)).digest('hex'),
      ]),
  );
}

function edit(path: string, from: string | RegExp, to: string): void {
  const text = readFileSync(inHouse(path), 'utf8');
  const edited = text.replace(from, to);
  expect([path, edited === text]).toEqual([path, false]);
  writeFileSync(inHouse(path), edited);
}

/** What is built from nothing kept at all. */
function builtClean(): Record<string, string> {
  for (const kept of ['.astro', 'node_modules/.cache', 'dist'])
    rmSync(inHouse(kept), { recursive: true, force: true });
  build();
  return built();
}

const title = (path: string) => edit(path, /^title: (.*)$/m, 'title: $1 anew');

describe('a build over what earlier ones kept is what a build from nothing is', () => {
  test('after a word and a length in one system', () => {
    build();
    edit('content/systems/combi-two-wire.mdx', /^summary: /m, 'summary: Plainly, ');
    edit('content/systems/combi-two-wire.mdx', 'length: 15', 'length: 14');
    build();
    const warm = built();
    expect(warm).toEqual(builtClean());
  });

  test('after a word in an entry of every other kind, and in the firm’s settings', () => {
    title('content/devices/fused-connection-unit.mdx');
    title('content/symptoms/boiler-display-dark.mdx');
    title('content/procedures/safe-isolation.mdx');
    title('content/standards/fuse-3-amp.mdx');
    title('content/glossary/neutral.mdx');
    edit('firm/firm.yaml', 'House', 'Other House');
    build();
    const warm = built();
    expect(warm).toEqual(builtClean());
  });

  test('after a constant of the engine, a published value and the code of a page', () => {
    edit('src/pages/systems/[id].astro', '<PageBar', '<p>Edited</p><PageBar');
    edit('src/circuit/constants.ts', 'CLOSED_CONTACT_OHMS = 0.05', 'CLOSED_CONTACT_OHMS = 0.06');
    edit('src/published/supply.ts', 'high: volts(253)', 'high: volts(254)');
    build();
    const warm = built();
    expect(warm).toEqual(builtClean());
    expect(readFileSync(inHouse('dist/systems/combi-volt-free/index.html'), 'utf8')).toContain(
      'Edited',
    );
  });

  test('and says so where nothing was changed, but not where a file was lost', () => {
    const before = built();
    expect(build()).toContain('Nothing has changed since dist/ was built');
    rmSync(inHouse('dist/index.html'));
    expect(build()).not.toContain('Nothing has changed');
    expect(built()).toEqual(before);
  });
});
