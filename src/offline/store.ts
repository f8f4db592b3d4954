import type { PackInfo, Version } from './manifest.ts';
import type { PackedFile } from './pack.ts';

/** A version known to the store, whether or not all of its packs are there yet. */
export interface Known {
  readonly version: Version;
  /** When its saving began, milliseconds since 1970. */
  readonly since: number;
}

/**
 * What the worker keeps, in the browser's cache storage: one cache for each pack, named by
 * the pack's hash, so that versions share what did not change; and one for the state: the
 * versions, the one in use, the one a reader took up, and which version serves which page.
 * Every value has an entry of its own, so that two workers never overwrite each other's.
 * @param scope absolute address of the site's base, ending in a slash
 */
export function openStore(caches: CacheStorage, scope: string) {
  const prefix = `proveline ${new URL(scope).pathname} `;
  const stateCache = `${prefix}state`;
  const packCache = (pack: PackInfo) => `${prefix}pack ${pack.sha256.slice(0, 16)}`;
  const key = (path: string) => `${scope}offline/${path}`;
  const fileKey = (path: string) => scope + path.split('/').map(encodeURIComponent).join('/');

  async function readFrom<T>(cacheName: string, path: string): Promise<T | undefined> {
    const found = await caches.match(key(path), { cacheName });
    return found && ((await found.json()) as T);
  }
  async function writeState(path: string, value: unknown): Promise<void> {
    const cache = await caches.open(stateCache);
    await cache.put(key(path), Response.json(value));
  }
  async function stateNames(folder: string): Promise<string[]> {
    const start = key(folder);
    const keys = await (await caches.open(stateCache)).keys();
    return keys
      .filter(({ url }) => url.startsWith(start))
      .map(({ url }) => decodeURIComponent(url.slice(start.length)));
  }

  const store = {
    /** Identifier of the version that new pages are served from. */
    current: () => readFrom<string>(stateCache, 'current'),
    setCurrent: (id: string) => writeState('current', id),
    /** Identifier of the version a reader last took up. */
    takenUp: () => readFrom<string>(stateCache, 'taken-up'),
    setTakenUp: (id: string) => writeState('taken-up', id),

    known: (id: string) => readFrom<Known>(stateCache, `versions/${id}`),
    async allKnown(): Promise<Known[]> {
      const found = await Promise.all((await stateNames('versions/')).map(store.known));
      return found.filter((known) => known !== undefined);
    },
    addKnown: (known: Known) => writeState(`versions/${known.version.id}`, known),

    /** The version that serves a page, by the page's client identifier. */
    versionOfClient: (client: string) => readFrom<string>(stateCache, `clients/${client}`),
    setVersionOfClient: (client: string, id: string) => writeState(`clients/${client}`, id),
    clients: () => stateNames('clients/'),

    /** Paths of a pack's files once all of them are saved; undefined until then. */
    contents: (pack: PackInfo) => readFrom<string[]>(packCache(pack), 'contents'),
    /** Saves a pack's files. The list of them is written last: it says that all are there. */
    async addPack(pack: PackInfo, files: readonly PackedFile[]): Promise<void> {
      const cache = await caches.open(packCache(pack));
      await Promise.all(
        files.map(({ path, type, body }) => {
          const headers = { 'content-type': type, 'content-length': String(body.length) };
          return cache.put(fileKey(path), new Response(body, { headers }));
        }),
      );
      await cache.put(key('contents'), Response.json(files.map(({ path }) => path)));
    },
    file: (pack: PackInfo, path: string) =>
      caches.match(fileKey(path), { cacheName: packCache(pack) }),

    /** Forgets pages that are closed, the versions given, and every pack no version needs. */
    async forget(closed: readonly string[], versions: readonly Version[]): Promise<void> {
      const state = await caches.open(stateCache);
      for (const client of closed) await state.delete(key(`clients/${client}`));
      for (const { id } of versions) await state.delete(key(`versions/${id}`));
      const needed = new Set(
        (await store.allKnown()).flatMap(({ version }) => version.packs.map(packCache)),
      );
      for (const name of await caches.keys())
        if (name.startsWith(`${prefix}pack `) && !needed.has(name)) await caches.delete(name);
    },
  };
  return store;
}

export type Store = ReturnType<typeof openStore>;
