import { hashOf, type InstallEffects, noteContents, savePacks } from './install.ts';
import { leftOutIn, type PackInfo, packsKept, sumOf, type Version } from './manifest.ts';
import type { Holding } from './messages.ts';
import type { Store } from './store.ts';

/**
 * Packs of a version that the device should hold and does not.
 * @param thorough reads every pack and gives up those that are not what they were; otherwise
 *   their names are looked at, which is quick enough for every page that opens
 */
export async function lostPacks(
  version: Version,
  store: Store,
  thorough = false,
): Promise<PackInfo[]> {
  if (await isEarlier(version, store)) return [];
  const kept = packsKept(version, await store.leftOut());
  if (thorough)
    for (const pack of kept) {
      const download = await store.pack(pack);
      if (download && (download.length !== pack.bytes || (await hashOf(download)) !== pack.sha256))
        await store.dropPack(pack);
    }
  return store.missing(kept);
}

/** What the device holds of a version; undefined for one of an earlier worker, which nobody looks at. */
export async function holdingOf(
  version: Version,
  lost: readonly PackInfo[],
  store: Store,
): Promise<Holding | undefined> {
  if (await isEarlier(version, store)) return undefined;
  const leftOut = await store.leftOut();
  return {
    kept: sumOf(packsKept(version, leftOut)),
    lost: sumOf(lost),
    leftOut: [...leftOutIn(version, leftOut)],
  };
}

/** Whether it is known what is in a version's packs, or in what an earlier worker kept. */
export const isNoted = async (version: Version, store: Store): Promise<boolean> =>
  !!(await store.contents(version.id)) || isEarlier(version, store);

/** Whether a version was kept file by file, by a worker of before; it cannot be mended. */
const isEarlier = async (version: Version, store: Store): Promise<boolean> =>
  !(await store.contents(version.id)) && !!(await store.earlier.index(version));

/**
 * Fetches what a version lost, and writes down again what is in its packs.
 * @throws as saveVersion; what arrived is kept
 */
export async function mend(
  version: Version,
  lost: readonly PackInfo[],
  scope: string,
  store: Store,
  effects: InstallEffects,
): Promise<void> {
  try {
    await savePacks(lost, scope, store, effects);
  } finally {
    await noteContents(version, store);
  }
}
