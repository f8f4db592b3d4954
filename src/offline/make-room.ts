import type { ToWorker } from './messages.ts';
import { openStore } from './store.ts';

/**
 * Gives up every saved version that no reader uses, the one on its way first, so that a job can
 * be kept. What serves the open pages, and new ones, stays whole. Called in a page.
 * @param scope absolute address of the site's base, ending in a slash
 * @returns whether anything was given up, so that keeping the job is worth another try
 */
export async function makeRoom(
  scope = new URL(document.body.dataset.base ?? '/', location.href).href,
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
  const unused = (await store.allKnown()).filter(({ version }) => !inUse.has(version.id));
  if (unused.length === 0) return wasHeld;
  await store.forget(
    [],
    unused.map(({ version }) => version),
  );
  return true;
}
