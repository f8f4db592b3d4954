import { createHash } from 'node:crypto';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { planPacks } from '../../src/offline/build/select.ts';
import { decodePack } from '../../src/offline/pack.ts';
import { memorySite } from './memory-site.ts';

const SITE = {
  'index.html': '<h1>First</h1>',
  '404.html': '<h1>No page</h1>',
  'systems/combi/index.html': '<h1>Combi</h1>',
  '_astro/_id_.x2.js': 'export {}',
  '_astro/style.x1.css': 'a{}',
  'pagefind/pagefind.js': 'export {}',
  'search/names.json': '{}',
  'data/index.json': '{}',
  'schemas/system.schema.json': '{}',
  _headers: '/*',
  'robots.txt': 'User-agent: *',
};

describe('the plan', () => {
  const sized = (entries: Record<string, number>) =>
    Object.entries(entries).map(([path, bytes]) => ({ path, bytes }));

  test('each kind in packs of its own, in order of path', () => {
    const files = Object.keys(SITE)
      .reverse()
      .map((path) => ({ path, bytes: 10 }));
    expect(planPacks(files)).toEqual([
      { kind: 'assets', paths: ['404.html', '_astro/_id_.x2.js', '_astro/style.x1.css'] },
      { kind: 'pages', paths: ['index.html', 'systems/combi/index.html'] },
      { kind: 'search', paths: ['pagefind/pagefind.js', 'search/names.json'] },
      { kind: 'data', paths: ['data/index.json'] },
    ]);
  });

  test('a pack is closed before it passes 1 MiB; a larger file stands alone', () => {
    const MiB = 1024 * 1024;
    const files = sized({
      'a.html': MiB / 2,
      'b.html': MiB / 2,
      'c.html': 1,
      'd.html': 2 * MiB,
      'e.html': 1,
    });
    expect(planPacks(files).map(({ paths }) => paths)).toEqual([
      ['a.html', 'b.html'],
      ['c.html'],
      ['d.html'],
      ['e.html'],
    ]);
  });

  test('open data is saved up to 256 KiB in all', () => {
    const kinds = (bytes: number) =>
      planPacks(sized({ 'data/a.json': 128 * 1024, 'data/b.json': bytes })).map(({ kind }) => kind);
    expect(kinds(128 * 1024)).toEqual(['data']);
    expect(kinds(128 * 1024 + 1)).toEqual([]);
  });
});

describe('the packs', () => {
  test('say truly what they hold', async () => {
    const { files, manifest } = await memorySite(SITE);
    for (const { url, bytes, sha256, files: paths } of manifest.packs) {
      const pack = files.get(url)!;
      expect(pack.length).toBe(bytes);
      expect(createHash('sha256').update(pack).digest('hex')).toBe(sha256);
      expect(url).toMatch(new RegExp(`^offline/[a-z]+-${sha256.slice(0, 16)}\\.pack$`));
      const held = decodePack(new Uint8Array(gunzipSync(pack)));
      expect(held.map(({ path }) => path)).toEqual(paths);
      for (const { path, body } of held)
        expect(new TextDecoder().decode(body)).toBe(SITE[path as keyof typeof SITE]);
    }
    expect(manifest).toMatchObject({ version: '1', date: '2026-11-25', pages: 2, files: 8 });
    expect(manifest.bytes).toBe(manifest.packs.reduce((sum, { bytes }) => sum + bytes, 0));
    expect(JSON.parse(new TextDecoder().decode(files.get('offline/manifest.json')))).toEqual(
      manifest,
    );
    expect(new TextDecoder().decode(files.get('sw.js'))).toBe(`// ${manifest.id}`);
  });

  test('are the same bytes for the same site, whatever the order of its files', async () => {
    const one = await memorySite(SITE);
    const other = await memorySite(Object.fromEntries(Object.entries(SITE).reverse()));
    expect(new Map([...other.files].sort())).toEqual(new Map([...one.files].sort()));
  });

  test('of another site or date have another identifier; packs that hold the same are the same', async () => {
    const one = await memorySite(SITE);
    const edited = await memorySite({ ...SITE, 'index.html': '<h1>Edited</h1>' });
    const later = await memorySite(SITE, '2026-11-26');
    expect(new Set([one, edited, later].map(({ manifest }) => manifest.id)).size).toBe(3);
    expect(later.manifest.packs).toEqual(one.manifest.packs);
    const changed = edited.manifest.packs.filter(
      (pack, i) => pack.sha256 !== one.manifest.packs[i]!.sha256,
    );
    expect(changed.map(({ url }) => url.split('-')[0])).toEqual(['offline/pages']);
  });

  test('of an empty folder are refused', async () => {
    await expect(memorySite({ 'a.css': '' })).rejects.toThrow(
      'dist holds no page: build the site first',
    );
  });
});
