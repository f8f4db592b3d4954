import { openStore } from './store.ts';

/**
 * Gives up every saved version that neither new pages nor open ones are served from, as one
 * that is being saved: what a reader made has the first claim on this device's room, and pages
 * can be fetched again.
 * @param scope absolute address of the site's base, ending in a slash
 * @returns whether there was anything to give up
 */
export async function makeRoom(
  scope = new URL(document.body.dataset.base ?? '/', location.href).href,
  caches: CacheStorage | undefined = globalThis.caches,
): Promise<boolean> {
  if (!caches) return false;
  const store = openStore(caches, scope);
  const clients = await store.clients();
  const served = new Set([
    await store.current(),
    ...(await Promise.all(clients.map(store.versionOfClient))),
  ]);
  const spare = (await store.allKnown()).filter(({ version }) => !served.has(version.id));
  await store.forget(
    [],
    spare.map(({ version }) => version),
  );
  return spare.length > 0;
}
