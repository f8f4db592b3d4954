import type { PackInfo, Version } from './manifest.ts';

/**
 * Reads what workers kept before packs were kept whole: a cache for each pack, named by the
 * pack's hash, in which every file stands by itself and `contents` names them all. Phones hold
 * such versions until their readers take up a newer one.
 */
export function openEarlierPacks(caches: CacheStorage, scope: string, prefix: string) {
  const cacheOf = (pack: PackInfo) => `${prefix}pack ${pack.sha256.slice(0, 16)}`;
  const fileKey = (path: string) => scope + path.split('/').map(encodeURIComponent).join('/');

  return {
    /** Which pack each file of a version is in; undefined when it was not kept so, or not wholly. */
    async index({ packs }: Version): Promise<Map<string, PackInfo> | undefined> {
      const index = new Map<string, PackInfo>();
      for (const pack of packs) {
        const key = `${scope}offline/contents`;
        const contents = await caches.match(key, { cacheName: cacheOf(pack) });
        if (!contents) return undefined;
        for (const path of (await contents.json()) as string[]) index.set(path, pack);
      }
      return index;
    },
    file: (pack: PackInfo, path: string): Promise<Response | undefined> =>
      caches.match(fileKey(path), { cacheName: cacheOf(pack) }),
    /** Deletes every such pack that none of the versions needs. */
    async forgetAllBut(versions: readonly Version[]): Promise<void> {
      const needed = new Set(versions.flatMap(({ packs }) => packs.map(cacheOf)));
      for (const name of await caches.keys())
        if (name.startsWith(`${prefix}pack `) && !needed.has(name)) await caches.delete(name);
    },
  };
}
