import { type PackInfo, packsKept, sumOf, type Version } from './manifest.ts';
import { decodePack } from './pack.ts';
import { isFull, JOB_RESERVE, NoRoom } from './room.ts';
import type { Contents, Store } from './store.ts';

/** The network and the device, as saving uses them. */
export interface InstallEffects {
  /** Asks for an absolute address. */
  readonly fetch: (address: string) => Promise<Response>;
  /** Bytes that may be taken; undefined where nobody knows. */
  readonly free: () => Promise<number | undefined>;
  /** Told each time more bytes are saved or on their way. */
  readonly onProgress?: (bytes: number) => void;
  /** Stops the saving when it is aborted. */
  readonly signal?: AbortSignal;
}

/** Packs asked for at the same time: enough to hide a slow answer, few enough to finish some. */
const AT_ONCE = 6;

/**
 * Saves every pack of a version that the device keeps and does not hold yet, and notes what is
 * in them. A pack is stored in one piece, so a cut costs the packs on their way and no more:
 * the next call goes on there. Nothing is asked for when there is no room for all of it.
 * @param scope absolute address of the site's base, ending in a slash
 * @throws NoRoom, or the error of the first pack that did not arrive whole, once all were tried
 */
export async function saveVersion(
  version: Version,
  scope: string,
  store: Store,
  effects: InstallEffects,
): Promise<void> {
  const kept = packsKept(version, await store.leftOut());
  const missing = await store.missing(kept);
  const held = sumOf(kept).bytes - sumOf(missing).bytes;
  const { onProgress } = effects;
  try {
    // What jobs may need is taken while pages are stored, so that pages cannot take it.
    if (missing.length > 0) await store.holdRoom(JOB_RESERVE);
    await savePacks(missing, scope, store, {
      ...effects,
      onProgress: (bytes) => onProgress?.(held + bytes),
    });
  } finally {
    await store.letRoomGo();
  }
  await noteContents(version, store);
}

/**
 * Saves packs, as {@link saveVersion} does for those of a whole version.
 * @throws as saveVersion
 */
export async function savePacks(
  packs: readonly PackInfo[],
  scope: string,
  store: Store,
  { fetch, free, onProgress, signal }: InstallEffects,
): Promise<void> {
  const needed = sumOf(packs).bytes;
  const room = await free();
  if (needed > 0 && room !== undefined && room < needed) throw new NoRoom(needed, room);
  const arrived = new Map<string, number>();
  const report = ({ url }: PackInfo, bytes: number) => {
    arrived.set(url, bytes);
    onProgress?.([...arrived.values()].reduce((sum, each) => sum + each, 0));
  };
  const waiting = [...packs];
  const failures: unknown[] = [];
  const stopped = () => signal?.aborted || failures.some(isFull);
  const work = async () => {
    for (let pack = waiting.shift(); pack && !stopped(); pack = waiting.shift()) {
      const one = pack;
      try {
        const { unkept } = await bringPack(one, scope, store, fetch, (bytes) => report(one, bytes));
        if (unkept !== undefined) throw unkept;
        report(one, one.bytes);
      } catch (failure) {
        report(one, 0);
        failures.push(failure);
      }
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, work));
  if (signal?.aborted) throw new NoRoom(needed, 0);
  if (failures.length > 0) throw failures.find(isFull) ?? failures[0];
  onProgress?.(needed);
}

/** A pack that came: its download, and why it could not be kept, where it could not. */
export interface Brought {
  readonly download: Uint8Array<ArrayBuffer>;
  readonly unkept?: unknown;
}

/** Packs on their way to the device, by address: who needs one waits for it, and asks no second time. */
const arriving = new Map<string, Promise<Brought>>();

/**
 * Brings a pack onto the device, once for all who ask until it is kept there: fetched, where it is
 * not here by then.
 * @throws Error when it does not arrive, or is not what the version says it is
 */
export function bringPack(
  pack: PackInfo,
  scope: string,
  store: Store,
  fetch: InstallEffects['fetch'],
  onBytes?: (bytes: number) => void,
): Promise<Brought> {
  const address = scope + pack.url;
  const known = arriving.get(address);
  if (known) return known;
  const bring = async (): Promise<Brought> => {
    const kept = await store.pack(pack);
    if (kept) return { download: kept };
    const download = await fetchPack(pack, address, fetch, onBytes);
    return store.addPack(pack, download).then(
      () => ({ download }),
      (unkept: unknown) => ({ download, unkept }),
    );
  };
  const made = bring().finally(() => arriving.delete(address));
  arriving.set(address, made);
  return made;
}

async function fetchPack(
  pack: PackInfo,
  address: string,
  fetch: InstallEffects['fetch'],
  onBytes: (bytes: number) => void = () => {},
): Promise<Uint8Array<ArrayBuffer>> {
  const response = await fetch(address);
  if (!response.ok || !response.body)
    throw new Error(`${pack.url}: the server answered ${response.status}`);
  const download = await collect(response.body, onBytes);
  const hash = await hashOf(download);
  if (hash !== pack.sha256) throw new Error(`${pack.url}: its hash is ${hash}, not ${pack.sha256}`);
  return download;
}

/** Writes down what is in a version's packs; packs that are not here keep what was known of them. */
export async function noteContents(version: Version, store: Store): Promise<void> {
  const known: Record<string, readonly string[]> = {};
  for (const { version: other } of await store.allKnown())
    Object.assign(known, await store.contents(other.id));
  const contents: Record<string, readonly string[]> = {};
  for (const pack of version.packs) {
    const paths = known[pack.url] ?? (await readPaths(pack, store));
    if (paths) contents[pack.url] = paths;
  }
  await store.setContents(version.id, contents satisfies Contents);
}

async function readPaths(pack: PackInfo, store: Store): Promise<string[] | undefined> {
  const download = await store.pack(pack);
  return download && decodePack(await gunzip(download)).map(({ path }) => path);
}

/** First 32 digits of a download's SHA-256: enough to tell any two apart. */
export async function hashOf(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return [...digest.subarray(0, 16)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** @throws TypeError when the bytes are not gzip, or cut short */
export const gunzip = (bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array<ArrayBuffer>> =>
  collect(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip')));

/** All bytes of a stream, with their count told as they come. */
async function collect(
  stream: ReadableStream<Uint8Array>,
  onBytes: (bytes: number) => void = () => {},
): Promise<Uint8Array<ArrayBuffer>> {
  const chunks: Uint8Array[] = [];
  let length = 0;
  const reader = stream.getReader();
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    chunks.push(part.value);
    length += part.value.length;
    onBytes(length);
  }
  const bytes = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}
