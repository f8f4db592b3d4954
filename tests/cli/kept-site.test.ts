import { describe, expect, test } from 'vitest';
import {
  inputsHash,
  recordBuild,
  type SiteInputs,
  standsAsBuilt,
} from '../../src/cli/kept-site.ts';
import { type FolderEffects, readHashes } from '../../src/folder/index.ts';

const text = (value: string) => new TextEncoder().encode(value);

/** A disk in memory: files by their whole path. */
function disk(files: Record<string, string>) {
  const on = new Map(Object.entries(files));
  const effects: FolderEffects = {
    list: async (folder, without = new Set()) =>
      [...on].flatMap(([path, body]) =>
        path.startsWith(`${folder}/`) && !without.has(path.slice(folder.length + 1).split('/')[0]!)
          ? [{ path: path.slice(folder.length + 1), bytes: body.length }]
          : [],
      ),
    async read(file) {
      const body = on.get(file);
      if (body === undefined) throw new Error(`no ${file}`);
      return text(body);
    },
    write: async (file, body) => {
      on.set(file, typeof body === 'string' ? body : new TextDecoder().decode(body));
    },
    remove: async () => {},
  };
  return { on, effects };
}

const SOURCES = {
  '/house/src/pages/index.astro': 'page',
  '/house/src/engine.ts': 'export const ohms = 1;',
  '/house/schemas/system.ts': 'schema',
  '/house/public/icon.svg': '<svg/>',
  '/house/astro.config.ts': 'config',
  '/house/tsconfig.json': '{}',
  '/house/package.json': '{}',
  '/house/package-lock.json': '{}',
  '/house/content/systems/a.mdx': 'a',
  '/firm/firm.yaml': 'name: Firm',
};
const INPUTS: SiteInputs = {
  root: '/house',
  entries: ['/house/content', '/firm'],
  out: '/house/dist',
  settings: ['2026-11-28'],
};

describe('what a site is made from', () => {
  const hashWith = (change: Record<string, string> = {}, inputs = INPUTS) =>
    inputsHash(inputs, disk({ ...SOURCES, ...change }).effects);

  test.each(Object.keys(SOURCES))('a byte changed in %s is seen', async (file) => {
    expect(await hashWith({ [file]: 'changed' })).not.toBe(await hashWith());
  });

  test('a file more, a file under another name, another day are seen', async () => {
    const hash = await hashWith();
    expect(await hashWith({ '/firm/content/systems/b.mdx': 'b' })).not.toBe(hash);
    expect(await hashWith({}, { ...INPUTS, settings: ['2026-11-29'] })).not.toBe(hash);
    const renamed = disk(SOURCES);
    renamed.on.delete('/house/content/systems/a.mdx');
    renamed.on.set('/house/content/systems/b.mdx', 'a');
    expect(await inputsHash(INPUTS, renamed.effects)).not.toBe(hash);
  });

  test('a copy without its list of packages is another, and no error', async () => {
    const bare = disk(SOURCES);
    bare.on.delete('/house/package-lock.json');
    expect(await inputsHash(INPUTS, bare.effects)).not.toBe(await hashWith());
  });

  test('what is built, kept by git or installed is no source', async () => {
    const beside = {
      '/firm/.git/HEAD': 'x',
      '/firm/node_modules/a/index.js': 'x',
      '/firm/.proveline/app/src/a.ts': 'x',
      '/firm/site/index.html': 'x',
    };
    const inFirm = { ...INPUTS, out: '/firm/site' };
    expect(await hashWith(beside, inFirm)).toBe(await hashWith({}, inFirm));
  });
});

describe('a site that stands', () => {
  const RECORD = '/house/.astro/built.json';
  const BUILT = { '/house/dist/index.html': 'home', '/house/dist/data/index.json': '{}' };
  const built = async () => {
    const { on, effects } = disk(BUILT);
    await recordBuild(RECORD, 'inputs', '/house/dist', readHashes(effects), effects);
    return { on, stands: (i = 'inputs') => standsAsBuilt(RECORD, i, '/house/dist', effects) };
  };

  test('as it was built, and with the printed pack in it', async () => {
    const { on, stands } = await built();
    expect(await stands()).toBe(true);
    on.set('/house/dist/pack/reference.pdf', 'pdf');
    expect(await stands()).toBe(true);
  });

  test('from other inputs, with a file changed, gone or added, it is built', async () => {
    const { on, stands } = await built();
    expect(await stands('others')).toBe(false);
    on.set('/house/dist/index.html', 'hom!');
    expect(await stands()).toBe(false);
    on.set('/house/dist/index.html', 'home');
    on.set('/house/dist/stray.html', 'x');
    expect(await stands()).toBe(false);
    on.delete('/house/dist/stray.html');
    expect(await stands()).toBe(true);
    on.delete('/house/dist/data/index.json');
    expect(await stands()).toBe(false);
  });

  test('a record cut short, of another shape or gone counts as none', async () => {
    const { on, stands } = await built();
    const whole = on.get(RECORD)!;
    for (const other of [whole.slice(0, -5), '', '[]', '{"inputs":"inputs"}']) {
      on.set(RECORD, other);
      expect([other, await stands()]).toEqual([other, false]);
    }
    on.delete(RECORD);
    expect(await stands()).toBe(false);
  });
});
