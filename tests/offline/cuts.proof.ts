import { describe, expect, test } from 'vitest';
import { bringPack, saveVersion } from '../../src/offline/install.ts';
import type { PackInfo } from '../../src/offline/manifest.ts';
import { openReader } from '../../src/offline/reading.ts';
import { openServing } from '../../src/offline/serving.ts';
import { openStore, type Store } from '../../src/offline/store.ts';
import { takeUp, tidy } from '../../src/offline/turnover.ts';
import { memoryCaches } from './memory-caches.ts';
import { memorySite, SCOPE } from './memory-site.ts';

/** Pages that say which edition they are of, too large for one pack to hold them all. */
const editionOf = (edition: string) =>
  Object.fromEntries(
    Array.from({ length: 240 }, (_, i) => [
      i === 0 ? 'index.html' : `systems/s${i}/index.html`,
      `${edition} ${i} ${Array.from({ length: 6000 }, (_, n) => ((n * 7919 * (i + 3)) % 65_521).toString(36)).join('')}`,
    ]),
  );
const one = await memorySite(editionOf('one'));
const two = await memorySite(editionOf('two'), { version: '2', date: '2026-11-26' });
/** Every twelfth page: each pack holds some ten. */
const PAGES = Object.keys(editionOf('one')).filter((_, i) => i % 12 === 0);

const noNetwork = () => Promise.reject(new TypeError('Failed to fetch'));

/** What every page says it is of, with no network. */
async function editions(store: Store): Promise<Set<string>> {
  const read = (pack: PackInfo) => bringPack(pack, SCOPE, store, noNetwork);
  const serving = openServing(store, openReader(store, read), SCOPE, noNetwork);
  const told = new Set<string>();
  for (const [i, path] of PAGES.entries()) {
    const address = SCOPE + path.replace('index.html', '');
    const request = Object.defineProperty(new Request(address), 'mode', { value: 'navigate' });
    const answer = await serving.answer({ request, clientId: '', resultingClientId: `page ${i}` });
    told.add((await answer.text()).split(' ')[0]!);
  }
  return told;
}

/** A server that answers so many times wholly, half once more, and then no longer. */
function cutAfter(answers: number) {
  let left = answers;
  return async (address: string): Promise<Response> => {
    if (left-- > 0) return two.fetch(address);
    if (left < -1) return noNetwork();
    const body = await (await two.fetch(address)).bytes();
    return new Response(body.slice(0, body.length / 2));
  };
}

describe('a server that goes away while a newer version comes', () => {
  test.each(Array.from({ length: 20 }, (_, i) => i))(
    'after %i packs leaves the older version whole, and the newer one is never mixed with it',
    async (packs) => {
      expect(two.version.packs.length).toBeGreaterThan(20);
      const store = openStore(memoryCaches(), SCOPE);
      await store.addKnown({ version: one.version, since: 1 });
      await saveVersion(one.version, SCOPE, store, one.effects);
      await takeUp(one.version, store, []);
      await store.addKnown({ version: two.version, since: 2 });
      const effects = { ...two.effects, fetch: cutAfter(packs) };
      await expect(saveVersion(two.version, SCOPE, store, effects)).rejects.toThrow();
      expect(await editions(store)).toEqual(new Set(['one']));
      two.asked.length = 0;
      await saveVersion(two.version, SCOPE, store, two.effects);
      expect(two.asked.length).toBeLessThanOrEqual(two.version.packs.length - packs);
      expect(await editions(store)).toEqual(new Set(['one']));
      await takeUp(two.version, store, []);
      await tidy(
        two.version,
        store,
        openServing(store, openReader(store, noNetwork), SCOPE, noNetwork),
        [],
      );
      expect(await editions(store)).toEqual(new Set(['two']));
    },
  );
});
