import type { ToWorker } from './messages.ts';
import { type Known, openStore } from './store.ts';

/** Bytes of the browser's allowance that pages never take: jobs and their pictures come first. */
export const JOB_RESERVE = 10_000_000;

/** The device has less room than a version needs beside what jobs are left. */
export class NoRoom extends Error {
  constructor(needed: number, free: number) {
    super(`${needed} bytes are needed and ${Math.max(0, free)} are free beside the jobs' reserve`);
    this.name = 'NoRoom';
  }
}

/** Whether something failed for want of room on the device. */
export const isFull = (failure: unknown): boolean =>
  failure instanceof NoRoom ||
  (failure instanceof DOMException && failure.name === 'QuotaExceededError');

/** Bytes that pages may still take; undefined where the browser does not say. */
export async function freeBytes(storage?: StorageManager): Promise<number | undefined> {
  if (!storage?.estimate) return undefined;
  const { quota, usage } = await storage.estimate();
  return quota === undefined ? undefined : quota - (usage ?? 0) - JOB_RESERVE;
}

/**
 * Gives up every saved version that no reader uses, the one on its way first, so that a job can
 * be kept. What serves the open pages, and new ones, stays whole. Called in a page.
 * @param scope absolute address of the site's base, ending in a slash
 * @returns whether anything was given up, so that keeping the job is worth another try
 */
export async function makeRoom(
  scope: string,
  caches: CacheStorage | undefined = globalThis.caches,
  workers: ServiceWorkerContainer | undefined = globalThis.navigator?.serviceWorker,
): Promise<boolean> {
  if (!caches) return false;
  const stop: ToWorker = { type: 'stop-saving' };
  (await workers?.getRegistration(scope))?.installing?.postMessage(stop);
  const store = openStore(caches, scope);
  const wasHeld = await store.letRoomGo();
  const inUse = new Set([await store.current()]);
  for (const client of await store.clients()) inUse.add(await store.versionOfClient(client));
  const unused = (await store.allKnown()).filter(({ version }: Known) => !inUse.has(version.id));
  if (unused.length === 0) return wasHeld;
  await store.forget(
    [],
    unused.map(({ version }) => version),
  );
  return true;
}
