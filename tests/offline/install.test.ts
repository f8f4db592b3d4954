import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { saveVersion } from '../../src/offline/install.ts';
import { decodePack } from '../../src/offline/pack.ts';
import { isFull, NoRoom } from '../../src/offline/room.ts';
import { openStore } from '../../src/offline/store.ts';
import { memoryCaches } from './memory-caches.ts';
import { bulkyPage, memorySite, SCOPE } from './memory-site.ts';

const TEXTS = {
  'index.html': bulkyPage('First', 1),
  'systems/a/index.html': bulkyPage('A', 2),
  'systems/a/sequences/x/index.html': bulkyPage('Sequence of A', 6),
  'systems/b/index.html': bulkyPage('B', 3),
  'systems/c/index.html': bulkyPage('C', 4),
  'systems/d/index.html': bulkyPage('D', 5),
  'a.css': 'a{}',
};
const site = () => memorySite(TEXTS);

describe('saving a version', () => {
  test('keeps every pack as it was downloaded, and tells how far it is', async () => {
    const { version, manifest, files, effects } = await site();
    const store = openStore(memoryCaches(), SCOPE);
    const told: number[] = [];
    await saveVersion(version, SCOPE, store, { ...effects, onProgress: (n) => told.push(n) });
    for (const { files: paths, ...pack } of manifest.packs) {
      const kept = await store.pack({ ...pack, files: paths.length });
      expect(kept).toEqual(files.get(pack.url));
      for (const { path, body } of decodePack(new Uint8Array(gunzipSync(kept!))))
        expect(body).toEqual(files.get(path));
    }
    expect(await store.contents(version.id)).toEqual(
      Object.fromEntries(manifest.packs.map(({ url, files: paths }) => [url, paths])),
    );
    expect(told.at(-1)).toBe(version.bytes);
    expect(told).toEqual(told.toSorted((a, b) => a - b));
  });

  test('tells the bytes as they come, each pack once, and none of one that failed', async () => {
    const { version, fetch, effects } = await site();
    const store = openStore(memoryCaches(), SCOPE);
    const lost = version.packs.toSorted((a, b) => b.bytes - a.bytes)[0]!;
    const told: number[] = [];
    const cut = async (address: string) => {
      if (!address.endsWith(lost.url)) return fetch(address);
      const body = await (await fetch(address)).bytes();
      // Half of it comes, then the line is cut.
      let sent = false;
      return new Response(
        new ReadableStream({
          pull(controller) {
            if (sent) controller.error(new TypeError('cut'));
            else controller.enqueue(body.slice(0, body.length / 2));
            sent = true;
          },
        }),
      );
    };
    const saving = saveVersion(version, SCOPE, store, {
      ...effects,
      fetch: cut,
      onProgress: (n) => told.push(n),
    });
    await expect(saving).rejects.toThrow('cut');
    const half = Math.floor(lost.bytes / 2);
    expect(told.some((n, i) => n - (told[i - 1] ?? 0) === half)).toBe(true);
    expect(told.at(-1)).toBe(version.bytes - lost.bytes);
    expect(Math.max(...told)).toBeLessThanOrEqual(version.bytes);
    expect(new Set(told).size).toBeGreaterThanOrEqual(version.packs.length);
  });

  test('of several failures a full device is the one that is told', async () => {
    const { version, effects } = await site();
    const store = openStore(memoryCaches(), SCOPE);
    const [first] = version.packs;
    const failing = async (address: string): Promise<Response> => {
      throw address.endsWith(first!.url) ? new TypeError('Failed to fetch') : new NoRoom(9, 1);
    };
    const saving = saveVersion(version, SCOPE, store, { ...effects, fetch: failing });
    await expect(saving).rejects.toThrow(NoRoom);
  });

  test('is refused before anything is asked for only where room is known to be short', async () => {
    for (const [room, fits] of [
      [undefined, true],
      [0, false],
    ] as const) {
      const { version, asked, effects } = await site();
      const store = openStore(memoryCaches(), SCOPE);
      const saving = saveVersion(version, SCOPE, store, { ...effects, free: async () => room });
      if (fits) await saving;
      else await expect(saving).rejects.toThrow(NoRoom);
      expect(asked.length > 0).toBe(fits);
      // Nothing is missing any more: then no room is too little.
      if (fits) await saveVersion(version, SCOPE, store, { ...effects, free: async () => 0 });
    }
  });

  test('what the device holds is what readers are told', async () => {
    const { version, effects } = await site();
    const caches = memoryCaches();
    const store = openStore(caches, SCOPE);
    await store.addKnown({ version, since: 1 });
    await saveVersion(version, SCOPE, store, effects);
    let held = 0;
    for (const name of await caches.keys()) {
      const cache = await caches.open(name);
      for (const { url } of await cache.keys())
        held += (await (await cache.match(url))!.bytes()).length;
    }
    expect(held / version.bytes).toBeGreaterThan(1);
    expect(held / version.bytes).toBeLessThan(1.03);
  });

  test('a cut one says which pack failed, and goes on where it was', async () => {
    const { version, asked, fetch, effects } = await site();
    const store = openStore(memoryCaches(), SCOPE);
    const lost = version.packs[3]!;
    const cut = async (address: string) => {
      if (address.endsWith(lost.url)) throw new TypeError('Failed to fetch');
      return fetch(address);
    };
    const saving = saveVersion(version, SCOPE, store, { ...effects, fetch: cut });
    await expect(saving).rejects.toThrow('Failed to fetch');
    expect(await store.missing(version.packs)).toEqual([lost]);
    asked.length = 0;
    await saveVersion(version, SCOPE, store, effects);
    expect(asked).toEqual([SCOPE + lost.url]);
  });

  test('a pack with one changed byte is refused', async () => {
    const { version, fetch, effects } = await memorySite({ 'index.html': '<h1>First</h1>' });
    const store = openStore(memoryCaches(), SCOPE);
    const tampered = async (address: string) => {
      const body = await (await fetch(address)).bytes();
      body[20]! ^= 1;
      return new Response(body);
    };
    const saving = saveVersion(version, SCOPE, store, { ...effects, fetch: tampered });
    await expect(saving).rejects.toThrow(
      new RegExp(
        `^${version.packs[0]!.url}: its hash is [0-9a-f]{32}, not ${version.packs[0]!.sha256}$`,
      ),
    );
    expect(await store.missing(version.packs)).toEqual(version.packs);
  });

  test('a pack the server does not have is named', async () => {
    const { version, files, effects } = await memorySite({ 'index.html': '<h1>First</h1>' });
    (files as Map<string, unknown>).delete(version.packs[0]!.url);
    const store = openStore(memoryCaches(), SCOPE);
    await expect(saveVersion(version, SCOPE, store, effects)).rejects.toThrow(
      `${version.packs[0]!.url}: the server answered 404`,
    );
  });

  test('the next version asks only for the packs that changed', async () => {
    const one = await site();
    const two = await memorySite({ ...TEXTS, 'systems/c/index.html': bulkyPage('Edited', 9) });
    const store = openStore(memoryCaches(), SCOPE);
    await saveVersion(one.version, SCOPE, store, one.effects);
    await saveVersion(two.version, SCOPE, store, two.effects);
    const changed = two.manifest.packs.filter(({ files }) =>
      files.includes('systems/c/index.html'),
    );
    expect(two.asked).toEqual(changed.map(({ url }) => SCOPE + url));
  });
});

describe('a device without room', () => {
  test('is asked before anything is: nothing is fetched for a version that will not fit', async () => {
    const { version, asked, effects } = await site();
    const store = openStore(memoryCaches(), SCOPE);
    const free = async () => version.bytes - 1;
    const saving = saveVersion(version, SCOPE, store, { ...effects, free });
    await expect(saving).rejects.toThrow(NoRoom);
    expect(asked).toEqual([]);
    await saveVersion(version, SCOPE, store, { ...effects, free: async () => version.bytes });
    expect(await store.missing(version.packs)).toEqual([]);
  });

  test('that has not what jobs may need beside the pages gets none of them', async () => {
    const { version, asked, effects } = await site();
    const caches = memoryCaches((url) => !url.endsWith('offline/room'));
    const store = openStore(caches, SCOPE);
    const failure = await saveVersion(version, SCOPE, store, effects).catch((e) => e);
    expect([isFull(failure), asked]).toEqual([true, []]);
  });

  test('gives jobs their room back once pages are stored, or are not', async () => {
    const { version, files, effects } = await site();
    const caches = memoryCaches();
    const store = openStore(caches, SCOPE);
    let held: boolean | undefined;
    const fetch = async (address: string) => {
      held ??= await caches.has('proveline /base/ room');
      return effects.fetch(address);
    };
    await saveVersion(version, SCOPE, store, { ...effects, fetch });
    expect([held, await caches.has('proveline /base/ room')]).toEqual([true, false]);
    (files as Map<string, unknown>).delete(version.packs[0]!.url);
    await store.dropPack(version.packs[0]!);
    await expect(saveVersion(version, SCOPE, store, effects)).rejects.toThrow('404');
    expect(await caches.has('proveline /base/ room')).toBe(false);
  });

  test('that fills up on the way keeps nothing of it, and all of the version before', async () => {
    const one = await site();
    const two = await memorySite(
      { ...TEXTS, 'systems/c/index.html': bulkyPage('C', 8), 'index.html': bulkyPage('F', 9) },
      { version: '2' },
    );
    const fresh = two.version.packs.filter(
      ({ url }) => !one.version.packs.some((pack) => pack.url === url),
    );
    expect(fresh.length).toBeGreaterThan(1);
    const caches = memoryCaches((url) => url !== SCOPE + fresh.at(-1)!.url);
    const store = openStore(caches, SCOPE);
    await store.addKnown({ version: one.version, since: 1 });
    await saveVersion(one.version, SCOPE, store, one.effects);
    await store.addKnown({ version: two.version, since: 2 });
    const failure = await saveVersion(two.version, SCOPE, store, two.effects).catch((e) => e);
    expect(isFull(failure)).toBe(true);
    await store.forget([], [two.version]);
    expect(await store.missing(one.version.packs)).toEqual([]);
    expect(await store.missing(fresh)).toEqual(fresh);
    expect(await store.known(two.version.id)).toBeUndefined();
  });

  test('saving that is stopped for a job asks for nothing more', async () => {
    const { version, asked, fetch, effects } = await site();
    const stopping = new AbortController();
    const saving = saveVersion(version, SCOPE, openStore(memoryCaches(), SCOPE), {
      ...effects,
      signal: stopping.signal,
      async fetch(address) {
        stopping.abort();
        return fetch(address);
      },
    });
    await expect(saving).rejects.toThrow(NoRoom);
    expect(asked.length).toBeLessThan(version.packs.length);
  });
});

describe('systems left out', () => {
  const large = () => memorySite(TEXTS, { choiceFrom: 1 });

  test('are not fetched, but for their own pages', async () => {
    const { version, manifest, asked, effects } = await large();
    expect(version.choosable).toBe(true);
    const store = openStore(memoryCaches(), SCOPE);
    await store.setLeftOut(['a']);
    await saveVersion(version, SCOPE, store, effects);
    const deeper = manifest.packs.filter(({ system }) => system === 'a');
    expect(deeper.flatMap(({ files }) => files)).toEqual(['systems/a/sequences/x/index.html']);
    const rest = manifest.packs.filter(({ system }) => system === undefined);
    expect(asked.toSorted()).toEqual(rest.map(({ url }) => SCOPE + url).toSorted());
  });
});
