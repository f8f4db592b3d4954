import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeHouse } from '../support/house.ts';

/** Systems that are shown: two are enough to tell one's pages from another's. */
const SYSTEMS = ['combi-two-wire', 'combi-volt-free'];

const { path, edit, build: buildWith, forget, remove } = makeHouse();
const build = () => buildWith('--firm', 'firm');

beforeAll(() => {
  const hidden = readdirSync(path('content/systems'))
    .map((file) => `systems/${file.replace(/\.mdx$/, '')}`)
    .filter((system) => !SYSTEMS.some((id) => system === `systems/${id}`));
  mkdirSync(path('firm'));
  writeFileSync(
    path('firm/firm.yaml'),
    `name: House\ncontact: { phone: 01632 960148 }\nhide: [${hidden.join(', ')}]\n`,
  );
});
afterAll(remove);

/** Every file built, with the hash of what it says. */
function built(): Record<string, string> {
  const files = readdirSync(path('dist'), { recursive: true, withFileTypes: true });
  return Object.fromEntries(
    files
      .filter((file) => file.isFile())
      .map((file) => join(file.parentPath, file.name))
      .sort()
      .map((file) => [
        file.slice(path('dist').length + 1),
        createHash('sha256').update(readFileSync(file)).digest('hex'),
      ]),
  );
}

/** What is built from nothing kept at all. */
function builtClean(): Record<string, string> {
  forget();
  build();
  return built();
}

const title = (file: string) => edit(file, /^title: (.*)$/m, 'title: $1 anew');

describe('a build over what earlier ones kept is what a build from nothing is', () => {
  test('after a word and a length in one system', () => {
    build();
    edit('content/systems/combi-two-wire.mdx', /^summary: /m, 'summary: Plainly, ');
    edit('content/systems/combi-two-wire.mdx', 'length: 15', 'length: 14');
    build();
    const warm = built();
    expect(warm).toEqual(builtClean());
  });

  test('after words that only some of a system’s pages show', () => {
    build();
    edit('content/systems/combi-two-wire.mdx', /^summary: /m, 'summary: Plainly, ');
    edit('content/systems/combi-two-wire.mdx', /\n+$/, '\n\nA sentence more.\n');
    build();
    const warm = built();
    expect(warm['systems/combi-two-wire/index.html']).toBeDefined();
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
    expect(readFileSync(path('dist/systems/combi-volt-free/index.html'), 'utf8')).toContain(
      'Edited',
    );
  });

  test('and says so where nothing was changed, but not where a file was lost', () => {
    const before = built();
    expect(build()).toContain('Nothing has changed since dist/ was built');
    rmSync(path('dist/index.html'));
    expect(build()).not.toContain('Nothing has changed');
    expect(built()).toEqual(before);
  });
});
