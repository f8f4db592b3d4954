import { openEarlierPacks } from './earlier-packs.ts';
import { type PackInfo, packsKept, type Version } from './manifest.ts';

/** A version known to the store, whether or not all of its packs are there yet. */
export interface Known {
  readonly version: Version;
  /** When its saving began, milliseconds since 1970. */
  readonly since: number;
}

/** Paths of the files in each pack of a version, by the pack's address. */
export type Contents = Readonly<Record<string, readonly string[]>>;

/** The version of a page that came from the network in place of a saved one. */
export const FROM_NETWORK = 'network';

/**
 * What the worker keeps, in the browser's cache storage: one cache with the packs as they were
 * downloaded, named by their hash, so that versions share what did not change; and one for the
 * state: the versions and what is in their packs, the one in use, the one a reader took up, the
 * systems left out, and which version serves which page. Every value has an entry of its own,
 * so that two workers never overwrite each other's.
 * @param scope absolute address of the site's base, ending in a slash
 */
export function openStore(caches: CacheStorage, scope: string) {
  const prefix = `proveline ${new URL(scope).pathname} `;
  const stateCache = `${prefix}state`;
  const packCache = `${prefix}packs`;
  const roomCache = `${prefix}room`;
  const key = (path: string) => `${scope}offline/${path}`;

  async function readState<T>(path: string): Promise<T | undefined> {
    const found = await caches.match(key(path), { cacheName: stateCache });
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
    /** Files of versions that were saved by a worker from before packs were kept whole. */
    earlier: openEarlierPacks(caches, scope, prefix),

    /** Identifier of the version that new pages are served from. */
    current: () => readState<string>('current'),
    setCurrent: (id: string) => writeState('current', id),
    /** Identifier of the version a reader last took up. */
    takenUp: () => readState<string>('taken-up'),
    setTakenUp: (id: string) => writeState('taken-up', id),

    known: (id: string) => readState<Known>(`versions/${id}`),
    async allKnown(): Promise<Known[]> {
      const found = await Promise.all((await stateNames('versions/')).map(store.known));
      return found.filter((known) => known !== undefined);
    },
    addKnown: (known: Known) => writeState(`versions/${known.version.id}`, known),

    /** What is in a version's packs; undefined before it was first wholly saved. */
    contents: (id: string) => readState<Contents>(`contents/${id}`),
    setContents: (id: string, contents: Contents) => writeState(`contents/${id}`, contents),

    /** Systems whose packs the reader does not want on this device. */
    leftOut: async () => new Set((await readState<string[]>('left-out')) ?? []),
    setLeftOut: (systems: Iterable<string>) => writeState('left-out', [...systems]),

    /** The version that serves a page, by the page's client identifier. */
    versionOfClient: (client: string) => readState<string>(`clients/${client}`),
    setVersionOfClient: (client: string, id: string) => writeState(`clients/${client}`, id),
    clients: () => stateNames('clients/'),

    /** Those of some packs that are not here, by name alone. */
    async missing(packs: readonly PackInfo[]): Promise<PackInfo[]> {
      const keys = await (await caches.open(packCache)).keys();
      const here = new Set(keys.map(({ url }) => url));
      return packs.filter(({ url }) => !here.has(scope + url));
    },
    /** Keeps a pack's download, whole. */
    async addPack({ url }: PackInfo, download: Uint8Array<ArrayBuffer>): Promise<void> {
      const headers = { 'content-type': 'application/octet-stream' };
      const cache = await caches.open(packCache);
      await cache.put(scope + url, new Response(download, { headers }));
    },
    /** A pack's download as it was kept; undefined when it is not here or cannot be read. */
    async pack({ url }: PackInfo): Promise<Uint8Array<ArrayBuffer> | undefined> {
      try {
        const found = await caches.match(scope + url, { cacheName: packCache });
        return found && new Uint8Array(await found.arrayBuffer());
      } catch {
        return undefined;
      }
    },
    async dropPack({ url }: PackInfo): Promise<void> {
      await (await caches.open(packCache)).delete(scope + url);
    },

    /**
     * Takes so many bytes of the device, to be let go when what must not have them is stored:
     * browsers tell how much room there is only roughly, and some not at all.
     * @throws QuotaExceededError when there are not so many
     */
    async holdRoom(bytes: number): Promise<void> {
      const cache = await caches.open(roomCache);
      await cache.put(key('room'), new Response(new Uint8Array(bytes)));
    },
    letRoomGo: () => caches.delete(roomCache),

    /** Forgets pages that are closed, the versions given, and every pack that no version keeps. */
    async forget(closed: readonly string[], versions: readonly Version[]): Promise<void> {
      const state = await caches.open(stateCache);
      for (const client of closed) await state.delete(key(`clients/${client}`));
      for (const { id } of versions) {
        await state.delete(key(`versions/${id}`));
        await state.delete(key(`contents/${id}`));
      }
      const leftOut = await store.leftOut();
      const left = (await store.allKnown()).map(({ version }) => version);
      const needed = new Set(
        left.flatMap((version) => packsKept(version, leftOut).map(({ url }) => scope + url)),
      );
      const packs = await caches.open(packCache);
      for (const { url } of await packs.keys()) if (!needed.has(url)) await packs.delete(url);
      await store.earlier.forgetAllBut(left);
    },
  };
  return store;
}

export type Store = ReturnType<typeof openStore>;
