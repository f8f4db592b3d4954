import { describe, expect, test } from 'vitest';
import { bringPack, type InstallEffects, saveVersion } from '../../src/offline/install.ts';
import { makeRoom } from '../../src/offline/make-room.ts';
import { holdingOf, lostPacks, mend } from '../../src/offline/mending.ts';
import { openReader } from '../../src/offline/reading.ts';
import { openServing } from '../../src/offline/serving.ts';
import { openStore } from '../../src/offline/store.ts';
import { takeUp } from '../../src/offline/turnover.ts';
import { memoryCaches } from './memory-caches.ts';
import { bulkyPage, memorySite, SCOPE } from './memory-site.ts';

const TEXTS = {
  'index.html': 'first',
  '404.html': 'no page',
  'systems/a/index.html': bulkyPage('A', 2),
  'systems/a/sequences/x/index.html': 'a sequence',
  'glossary/b/index.html': bulkyPage('B', 3),
  'glossary/c/index.html': bulkyPage('C', 4),
};

/** A device on which a version is saved and taken up. */
async function device() {
  const site = await memorySite(TEXTS, { choiceFrom: 1 });
  const caches = memoryCaches();
  const store = openStore(caches, SCOPE);
  await store.addKnown({ version: site.version, since: 1 });
  await saveVersion(site.version, SCOPE, store, site.effects);
  await takeUp(site.version, store, []);
  site.asked.length = 0;
  const packOf = (path: string) => {
    const { url } = site.manifest.packs.find(({ files }) => files.includes(path))!;
    return site.version.packs.find((pack) => pack.url === url)!;
  };
  /** A worker that starts now, with its own packs and answers from the network. */
  const started = (
    fetchPack: InstallEffects['fetch'],
    network: (request: Request) => Promise<Response> = () => Promise.reject(new TypeError('none')),
  ) => {
    const reader = openReader(store, (pack) => bringPack(pack, SCOPE, store, fetchPack));
    const serving = openServing(store, reader, SCOPE, network);
    const open = (path: string) =>
      serving.answer({
        request: Object.defineProperty(new Request(SCOPE + path), 'mode', { value: 'navigate' }),
        clientId: '',
        resultingClientId: 'page',
      });
    return { serving, open };
  };
  const none = () => Promise.reject(new TypeError('Failed to fetch'));
  return { ...site, caches, store, packOf, started, none };
}

describe('a lost pack', () => {
  test('is fetched once where a page needs it while it is mended', async () => {
    const { store, version, packOf, started, effects, asked } = await device();
    const lost = packOf('glossary/b/index.html');
    await store.dropPack(lost);
    const { open } = started(effects.fetch);
    const [page] = await Promise.all([
      open('glossary/b/'),
      mend(version, [lost], SCOPE, store, effects),
    ]);
    expect(page!.status).toBe(200);
    // And once more by who still takes it for lost.
    await mend(version, [lost], SCOPE, store, effects);
    expect(asked.filter((address) => address.includes(lost.url))).toHaveLength(1);
  });

  test('is fetched once where it is mended while it came for a page and is not kept yet', async () => {
    const { store, version, packOf, effects, asked } = await device();
    const lost = packOf('glossary/b/index.html');
    await store.dropPack(lost);
    const [came, kept] = [Promise.withResolvers<void>(), Promise.withResolvers<void>()];
    const slow: typeof store = {
      ...store,
      async addPack(...pack) {
        came.resolve();
        await kept.promise;
        return store.addPack(...pack);
      },
    };
    const reading = openReader(slow, (pack) => bringPack(pack, SCOPE, slow, effects.fetch)).file(
      lost,
      'glossary/b/index.html',
    );
    await came.promise;
    const mended = mend(version, [lost], SCOPE, slow, effects);
    // Whoever would ask for it has asked by then.
    await new Promise((done) => setTimeout(done, 20));
    kept.resolve();
    await mended;
    expect((await reading)?.status).toBe(200);
    expect(asked.filter((address) => address.includes(lost.url))).toHaveLength(1);
  });

  test('is taken as it is kept where it came meanwhile, and nobody is asked', async () => {
    const { store, files, packOf, none } = await device();
    const pack = packOf('glossary/b/index.html');
    const { download } = await bringPack(pack, SCOPE, store, none);
    expect(download).toEqual(files.get(pack.url));
  });

  test('is seen, costs its own files only, and says so where there is no signal', async () => {
    const { store, version, packOf, started, none } = await device();
    const lost = packOf('glossary/b/index.html');
    await store.dropPack(lost);
    expect(await lostPacks(version, store)).toEqual([lost]);
    expect((await holdingOf(version, [lost], store))!.lost.pages).toBe(lost.pages);
    const { open } = started(none);
    const gap = await open('glossary/b/');
    expect(gap.status).toBe(503);
    expect(await gap.text()).toContain('It comes back by itself with a signal.');
    for (const path of ['', 'systems/a/', 'systems/a/sequences/x/', 'glossary/c/'])
      expect([path, (await open(path)).status]).toEqual([path, 200]);
  });

  test('is fetched again alone when a file of it is asked for', async () => {
    const { store, version, packOf, started, effects, asked } = await device();
    const lost = packOf('glossary/b/index.html');
    await store.dropPack(lost);
    const { open } = started(effects.fetch);
    expect((await open('glossary/b/')).status).toBe(200);
    expect(asked).toEqual([SCOPE + lost.url]);
    expect(await lostPacks(version, store)).toEqual([]);
  });

  test('is mended with every other that is lost, and nothing else is fetched', async () => {
    const { store, version, packOf, asked, effects } = await device();
    const gone = [packOf('glossary/b/index.html'), packOf('systems/a/index.html')];
    for (const pack of gone) await store.dropPack(pack);
    await mend(version, await lostPacks(version, store), SCOPE, store, effects);
    expect(asked.toSorted()).toEqual(gone.map(({ url }) => SCOPE + url).toSorted());
    expect(await lostPacks(version, store)).toEqual([]);
  });

  test('that the server has no more is answered by the network, with all the page asks for', async () => {
    const { store, packOf, started, none } = await device();
    await store.dropPack(packOf('glossary/b/index.html'));
    const { open, serving } = started(none, async ({ url }) => new Response(`newer ${url}`));
    expect(await (await open('glossary/b/')).text()).toBe(`newer ${SCOPE}glossary/b/`);
    const own = await serving.answer({
      request: new Request(`${SCOPE}index.html`),
      clientId: 'page',
      resultingClientId: '',
    });
    expect(await own.text()).toBe(`newer ${SCOPE}index.html`);
  });
});

describe('a damaged pack', () => {
  test.each([
    ['cut short', (body: Uint8Array<ArrayBuffer>) => body.slice(0, -9)],
    ['with one byte changed', (body: Uint8Array<ArrayBuffer>) => body.with(99, body[99]! ^ 1)],
  ])('%s is found by a check, and mended', async (_, damage) => {
    const { store, version, files, packOf, effects } = await device();
    const pack = packOf('glossary/b/index.html');
    await store.addPack(pack, damage(files.get(pack.url)!));
    expect(await lostPacks(version, store)).toEqual([]);
    expect(await lostPacks(version, store, true)).toEqual([pack]);
    await mend(version, [pack], SCOPE, store, effects);
    expect(await lostPacks(version, store, true)).toEqual([]);
    expect(await store.pack(pack)).toEqual(files.get(pack.url));
  });

  test('is not shown: its files are fetched again', async () => {
    const { store, files, packOf, started, effects } = await device();
    const pack = packOf('glossary/b/index.html');
    await store.addPack(pack, files.get(pack.url)!.slice(0, -9));
    const { open } = started(effects.fetch);
    expect(await (await open('glossary/b/')).text()).toBe(TEXTS['glossary/b/index.html']);
  });
});

describe('a system left out', () => {
  test('gives up its packs, keeps its own page, says why the rest needs a signal', async () => {
    const { store, version, packOf, started, none } = await device();
    await store.setLeftOut(['a']);
    await store.forget([], []);
    const deeper = packOf('systems/a/sequences/x/index.html');
    expect(await store.missing(version.packs)).toEqual([deeper]);
    expect(await lostPacks(version, store)).toEqual([]);
    expect((await holdingOf(version, [], store))!.kept.pages).toBe(version.pages - 1);
    const { open } = started(none);
    expect((await open('systems/a/')).status).toBe(200);
    const gap = await open('systems/a/sequences/x/');
    expect([gap.status, await gap.text()]).toEqual([
      503,
      expect.stringContaining('You chose not to keep this system on this device.'),
    ]);
  });

  test('comes back whole when it is wanted again', async () => {
    const { store, version, effects, started, none } = await device();
    await store.setLeftOut(['a']);
    await store.forget([], []);
    await store.setLeftOut([]);
    await mend(version, await lostPacks(version, store), SCOPE, store, effects);
    expect((await started(none).open('systems/a/sequences/x/')).status).toBe(200);
  });
});

describe('room for a job', () => {
  test('is made of the version on its way, never of the one in use', async () => {
    const { caches, store, version } = await device();
    const next = await memorySite({ ...TEXTS, 'index.html': 'second' }, { version: '2' });
    await store.addKnown({ version: next.version, since: 2 });
    await saveVersion(next.version, SCOPE, store, next.effects);
    expect(await makeRoom(SCOPE, caches, undefined)).toBe(true);
    expect(await store.known(next.version.id)).toBeUndefined();
    expect(await lostPacks(version, store)).toEqual([]);
    const fresh = next.version.packs.filter(
      ({ url }) => !version.packs.some((pack) => pack.url === url),
    );
    expect(fresh.length).toBeGreaterThan(0);
    expect(await store.missing(fresh)).toEqual(fresh);
    expect(await makeRoom(SCOPE, caches, undefined)).toBe(false);
  });
});
