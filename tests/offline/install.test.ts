import { describe, expect, test } from 'vitest';
import { saveVersion } from '../../src/offline/install.ts';
import { openStore } from '../../src/offline/store.ts';
import { memoryCaches } from './memory-caches.ts';
import { bulkyPage, memorySite, SCOPE } from './memory-site.ts';

const site = () =>
  memorySite({
    'index.html': bulkyPage('First', 1),
    'systems/a/index.html': bulkyPage('A', 2),
    'systems/b/index.html': bulkyPage('B', 3),
    'systems/c/index.html': bulkyPage('C', 4),
    'systems/d/index.html': bulkyPage('D', 5),
    'a.css': 'a{}',
  });
const quiet = () => {};

describe('saving a version', () => {
  test('saves every file as it was built, and tells how far it is', async () => {
    const { version, manifest, files, fetch } = await site();
    const store = openStore(memoryCaches(), SCOPE);
    const told: number[] = [];
    await saveVersion(version, SCOPE, store, { fetch, onProgress: (bytes) => told.push(bytes) });
    for (const pack of manifest.packs) {
      expect(await store.contents(pack)).toEqual(pack.files);
      for (const path of pack.files) {
        const saved = await (await store.file(pack, path))!.bytes();
        expect(saved).toEqual(files.get(path));
      }
    }
    expect(told.at(-1)).toBe(version.bytes);
    expect(told).toEqual(told.toSorted((a, b) => a - b));
  });

  test('a cut one says which pack failed, and goes on where it was', async () => {
    const { version, manifest, asked, fetch } = await site();
    const store = openStore(memoryCaches(), SCOPE);
    const lost = manifest.packs[3]!;
    const cut = async (address: string) => {
      if (address.endsWith(lost.url)) throw new TypeError('Failed to fetch');
      return fetch(address);
    };
    const effects = { fetch: cut, onProgress: quiet };
    await expect(saveVersion(version, SCOPE, store, effects)).rejects.toThrow('Failed to fetch');
    expect(await store.contents(lost)).toBeUndefined();
    asked.length = 0;
    await saveVersion(version, SCOPE, store, { fetch, onProgress: quiet });
    expect(asked).toEqual([SCOPE + lost.url]);
  });

  test('a pack cut while its files are stored does not count as saved', async () => {
    const { version, asked, fetch } = await site();
    const caches = memoryCaches();
    const broken: CacheStorage = {
      ...caches,
      async open(name) {
        const cache = await caches.open(name);
        return {
          ...cache,
          put: (key, response) =>
            String(key).endsWith('systems/c/index.html')
              ? Promise.reject(new DOMException('no room', 'QuotaExceededError'))
              : cache.put(key, response),
        };
      },
    };
    const effects = { fetch, onProgress: quiet };
    const store = openStore(broken, SCOPE);
    await expect(saveVersion(version, SCOPE, store, effects)).rejects.toThrow('no room');
    asked.length = 0;
    await saveVersion(version, SCOPE, openStore(caches, SCOPE), effects);
    expect(asked).toHaveLength(1);
  });

  test('a pack with one changed byte is refused', async () => {
    const { version, fetch } = await memorySite({ 'index.html': '<h1>First</h1>' });
    const store = openStore(memoryCaches(), SCOPE);
    const tampered = async (address: string) => {
      const body = await (await fetch(address)).bytes();
      body[20]! ^= 1;
      return new Response(body);
    };
    const saving = saveVersion(version, SCOPE, store, { fetch: tampered, onProgress: quiet });
    await expect(saving).rejects.toThrow(
      new RegExp(
        `^${version.packs[0]!.url}: its hash is [0-9a-f]{64}, not ${version.packs[0]!.sha256}$`,
      ),
    );
    expect(await store.contents(version.packs[0]!)).toBeUndefined();
  });

  test('a pack the server does not have is named', async () => {
    const { version, files, fetch } = await memorySite({ 'index.html': '<h1>First</h1>' });
    (files as Map<string, unknown>).delete(version.packs[0]!.url);
    const store = openStore(memoryCaches(), SCOPE);
    await expect(saveVersion(version, SCOPE, store, { fetch, onProgress: quiet })).rejects.toThrow(
      `${version.packs[0]!.url}: the server answered 404`,
    );
  });

  test('the next version asks only for the packs that changed', async () => {
    const texts = {
      'index.html': bulkyPage('First', 1),
      'systems/a/index.html': bulkyPage('A', 2),
    };
    const one = await memorySite(texts);
    const two = await memorySite({ ...texts, 'index.html': bulkyPage('Edited', 9) });
    const store = openStore(memoryCaches(), SCOPE);
    await saveVersion(one.version, SCOPE, store, { fetch: one.fetch, onProgress: quiet });
    await saveVersion(two.version, SCOPE, store, { fetch: two.fetch, onProgress: quiet });
    expect(two.asked).toEqual([SCOPE + two.manifest.packs[0]!.url]);
  });
});
