import type { Version } from './manifest.ts';
import type { Serving } from './serving.ts';
import { FROM_NETWORK, type Store } from './store.ts';

/**
 * Makes a version the one that new pages are served from. Pages open now that have no version
 * of their own keep the one they have had.
 * @param open identifiers of the pages and workers this site's worker serves
 */
export async function takeUp(
  version: Version,
  store: Store,
  open: readonly string[],
): Promise<void> {
  const previous = await store.current();
  if (previous && previous !== version.id)
    for (const client of open)
      if (!(await store.versionOfClient(client))) await store.setVersionOfClient(client, previous);
  await store.setCurrent(version.id);
}

/**
 * Whether a worker that starts should take up the version it brings without being asked now:
 * a reader did so before, or there is nothing older to keep serving.
 */
export async function shouldTakeUp(version: Version, store: Store): Promise<boolean> {
  const current = await store.current();
  if (!current || (await store.takenUp()) === version.id) return true;
  return !(await store.known(current));
}

/** What a page is told: the version that serves it, and another one that it may take up. */
export async function stateFor(
  client: string,
  own: Version,
  store: Store,
  serving: Serving,
): Promise<{ readonly serving: Version | undefined; readonly ready: Version | undefined }> {
  const current = await store.current();
  const said = await serving.versionOf(client);
  const id = said === FROM_NETWORK ? current : said;
  const served = id === undefined ? undefined : (await store.known(id))?.version;
  // A version that gave way to a job is no longer there to be taken up.
  if (own.id !== current)
    return { serving: served, ready: (await store.known(own.id)) ? own : undefined };
  return { serving: served, ready: served && served.id !== own.id ? own : undefined };
}

/**
 * Forgets older versions that are not in use by any page, with their packs. Versions whose
 * saving began later than this worker's own are another worker's business.
 * @param open identifiers of every page and worker of this site that is open
 */
export async function tidy(
  own: Version,
  store: Store,
  serving: Serving,
  open: readonly string[],
): Promise<void> {
  const alive = new Set([...open, ...serving.remembered().keys()]);
  const closed = (await store.clients()).filter((client) => !alive.has(client));
  const inUse = new Set([own.id, await store.current(), ...serving.remembered().values()]);
  for (const client of open) inUse.add(await serving.versionOf(client));
  const all = await store.allKnown();
  const since = all.find(({ version }) => version.id === own.id)?.since;
  if (since === undefined) return;
  const stale = all.filter((known) => known.since < since && !inUse.has(known.version.id));
  await store.forget(
    closed,
    stale.map(({ version }) => version),
  );
}
