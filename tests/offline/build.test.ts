import { createHash } from 'node:crypto';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { writeOfflinePacks } from '../../src/offline/build/index.ts';
import { planPacks } from '../../src/offline/build/select.ts';
import { versionOf } from '../../src/offline/manifest.ts';
import { decodePack } from '../../src/offline/pack.ts';
import { memoryEffects, memorySite } from './memory-site.ts';

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
  const KiB = 1024;
  /** So many pages of so many bytes, each in a folder of its own. */
  const glossary = (count: number, bytes = 20 * KiB) =>
    Object.fromEntries(
      Array.from({ length: count }, (_, i) => [`glossary/word-${i}/index.html`, bytes]),
    );

  test('each kind in packs of its own, what nobody reads offline left out', () => {
    const files = Object.keys({ ...SITE, 'version.json': '' })
      .reverse()
      .map((path) => ({ path, bytes: 10 }));
    expect(planPacks(files)).toEqual([
      { kind: 'assets', paths: ['404.html', '_astro/_id_.x2.js', '_astro/style.x1.css'] },
      { kind: 'lists', paths: ['index.html', 'search/names.json'] },
      { kind: 'pages', paths: ['systems/combi/index.html'] },
      { kind: 'search', paths: ['pagefind/pagefind.js'] },
    ]);
  });

  test('what lies below a system’s page, and its job, in packs of that system alone', () => {
    const plan = planPacks(
      sized({
        'systems/a/index.html': 9,
        'systems/a/sequences/x/index.html': 9,
        'systems/a/replace/index.html': 9,
        'systems/b/as-found/index.html': 9,
        'systems/index.html': 9,
        'job/a.json': 9,
        'job/index.html': 9,
      }),
    );
    expect(plan).toEqual([
      { kind: 'assets', system: 'a', paths: ['job/a.json'] },
      { kind: 'lists', paths: ['job/index.html', 'systems/index.html'] },
      { kind: 'pages', paths: ['systems/a/index.html'] },
      {
        kind: 'pages',
        system: 'a',
        paths: ['systems/a/replace/index.html', 'systems/a/sequences/x/index.html'],
      },
      { kind: 'pages', system: 'b', paths: ['systems/b/as-found/index.html'] },
    ]);
  });

  test('every file once, and a pack of several files no fuller than it may be', () => {
    const files = glossary(200);
    const plan = planPacks(sized(files));
    expect(plan.flatMap(({ paths }) => paths).toSorted()).toEqual(Object.keys(files).toSorted());
    for (const { paths } of plan) expect(paths.length * 20 * KiB).toBeLessThan(11 * 20 * KiB + 1);
    expect(plan.length).toBeGreaterThan(15);
  });

  test('a file larger than a pack stands alone', () => {
    const plan = planPacks(sized({ ...glossary(30), 'glossary/large/index.html': 4096 * KiB }));
    const large = plan.find(({ paths }) => paths.includes('glossary/large/index.html'));
    expect(large!.paths).toEqual(['glossary/large/index.html']);
  });

  test('a page more, or one longer, leaves every pack as it was but one, or its two halves', () => {
    const names = (files: Record<string, number>) =>
      new Set(planPacks(sized(files)).map(({ paths }) => paths.join(' ')));
    const before = names(glossary(200));
    for (const edited of [
      glossary(201),
      { ...glossary(200), 'glossary/word-7/index.html': 60 * KiB },
    ]) {
      const fresh = [...names(edited)].filter((name) => !before.has(name));
      expect(fresh.length).toBeLessThanOrEqual(2);
    }
  });

  test('a page’s part of the search index goes by its page', () => {
    const page = 'glossary/word-7/';
    const plan = planPacks([
      ...sized(glossary(200)),
      { path: 'pagefind/fragment/one.pf_fragment', bytes: 900, page },
      { path: 'pagefind/words/one.pf_words', bytes: 900, page },
    ]);
    const withPage = plan.find(({ paths }) => paths.includes(`${page}index.html`));
    expect(withPage!.paths).toContain('pagefind/fragment/one.pf_fragment');
    expect(plan.find(({ kind }) => kind === 'search')!.paths).toEqual([
      'pagefind/words/one.pf_words',
    ]);
  });
});

describe('the packs', () => {
  test('say truly what they hold', async () => {
    const { files, manifest } = await memorySite(SITE);
    for (const { url, bytes, sha256, files: paths } of manifest.packs) {
      const pack = files.get(url)!;
      expect(pack.length).toBe(bytes);
      expect(createHash('sha256').update(pack).digest('hex').slice(0, 32)).toBe(sha256);
      expect(url).toMatch(new RegExp(`^offline/packs/[a-z]+-${sha256.slice(0, 16)}\\.pack$`));
      const held = decodePack(new Uint8Array(gunzipSync(pack)));
      expect(held.map(({ path }) => path)).toEqual(paths);
      for (const { path, body } of held)
        expect(new TextDecoder().decode(body)).toBe(SITE[path as keyof typeof SITE]);
    }
    expect(manifest).toMatchObject({ version: '1', date: '2026-11-25', pages: 2, files: 7 });
    expect(manifest.bytes).toBe(manifest.packs.reduce((sum, { bytes }) => sum + bytes, 0));
    expect(JSON.parse(new TextDecoder().decode(files.get('offline/manifest.json')))).toEqual(
      manifest,
    );
    expect(new TextDecoder().decode(files.get('sw.js'))).toBe(
      `const SITE_VERSION=${JSON.stringify(versionOf(manifest))};// the worker`,
    );
  });

  test('of an earlier build are taken as they are while no file of theirs changes', async () => {
    const store = new Map<string, Buffer>();
    const writtenFor = async (site: Record<string, string>) => {
      const files = new Map(
        Object.entries(site).map(([path, text]) => [path, new TextEncoder().encode(text)]),
      );
      const memory = memoryEffects(files);
      const made: string[] = [];
      const kept = {
        ...memory.kept,
        read: (name: string) => store.get(name),
        write: (name: string, body: Uint8Array) => {
          made.push(name);
          store.set(name, Buffer.from(body));
        },
      };
      const built = { version: '1', date: '2026-11-25' };
      const { packs } = await writeOfflinePacks('dist', built, {}, { ...memory, kept });
      const held = packs.flatMap(({ url }) =>
        decodePack(new Uint8Array(gunzipSync(files.get(url)!))),
      );
      const texts = held.map(({ path, body }) => [path, new TextDecoder().decode(body)] as const);
      return { made: made.length, texts: Object.fromEntries(texts) };
    };
    const first = await writtenFor(SITE);
    expect(first.made).toBeGreaterThan(2);
    expect(await writtenFor(SITE)).toEqual({ made: 0, texts: first.texts });
    const edited = await writtenFor({ ...SITE, 'index.html': '<h1>Third</h1>' });
    expect(edited).toEqual({ made: 1, texts: { ...first.texts, 'index.html': '<h1>Third</h1>' } });
    // The same bytes at another address are another pack.
    const { '404.html': body, ...others } = SITE;
    const moved = await writtenFor({ ...others, '500.html': body });
    expect(moved.texts).toHaveProperty(['500.html'], body);
    expect(moved.texts).not.toHaveProperty(['404.html']);
  });

  test('are the same bytes for the same site, whatever the order of its files', async () => {
    const one = await memorySite(SITE);
    const other = await memorySite(Object.fromEntries(Object.entries(SITE).reverse()));
    expect(new Map([...other.files].sort())).toEqual(new Map([...one.files].sort()));
  });

  test('of another site have another identifier; the same site on another day has not', async () => {
    const one = await memorySite(SITE);
    const edited = await memorySite({ ...SITE, 'index.html': '<h1>Edited</h1>' });
    const later = await memorySite(SITE, { date: '2026-11-26' });
    const renamed = await memorySite(SITE, { version: '2' });
    expect(new Set([one, edited, renamed].map(({ manifest }) => manifest.id)).size).toBe(3);
    expect(later.manifest).toEqual({ ...one.manifest, date: '2026-11-26' });
    const changed = edited.manifest.packs.filter(
      (pack, i) => pack.sha256 !== one.manifest.packs[i]!.sha256,
    );
    expect(changed.map(({ url }) => url.split('-')[0])).toEqual(['offline/packs/lists']);
  });

  test('of so many bytes leave readers the choice of systems', async () => {
    const { manifest } = await memorySite(SITE);
    const choosable = async (choiceFrom: number) =>
      (await memorySite(SITE, { choiceFrom })).version.choosable;
    expect(await choosable(manifest.bytes)).toBe(true);
    expect(await choosable(manifest.bytes + 1)).toBe(false);
  });

  test('of an empty folder are refused', async () => {
    await expect(memorySite({ 'a.css': '' })).rejects.toThrow(
      'dist holds no page: build the site first',
    );
  });
});
