import type { PackInfo, Version } from './manifest.ts';
import { decodePack } from './pack.ts';
import type { Store } from './store.ts';

/** The network, as saving a version uses it. */
export interface InstallEffects {
  /** Asks for an absolute address. */
  readonly fetch: (address: string) => Promise<Response>;
  /** Told each time more bytes are saved or on their way. */
  readonly onProgress: (bytes: number) => void;
}

/** Packs asked for at the same time: enough to hide a slow answer, few enough to finish some. */
const AT_ONCE = 3;

/**
 * Saves every pack of a version that is not saved yet. A pack counts only when all its files
 * are stored, so a cut costs the packs on their way and no more: the next call goes on there.
 * @param scope absolute address of the site's base, ending in a slash
 * @throws Error naming the first pack that did not arrive whole, once all have been tried
 */
export async function saveVersion(
  version: Version,
  scope: string,
  store: Store,
  { fetch, onProgress }: InstallEffects,
): Promise<void> {
  const arrived = new Map<string, number>();
  const report = (pack: PackInfo, bytes: number) => {
    arrived.set(pack.url, bytes);
    onProgress([...arrived.values()].reduce((sum, each) => sum + each, 0));
  };
  const waiting = [...version.packs];
  const failures: unknown[] = [];
  const work = async () => {
    for (let pack = waiting.shift(); pack; pack = waiting.shift()) {
      try {
        await savePack(pack, scope, store, fetch, report);
      } catch (failure) {
        report(pack, 0);
        failures.push(failure);
      }
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, work));
  if (failures.length > 0) throw failures[0];
}

async function savePack(
  pack: PackInfo,
  scope: string,
  store: Store,
  fetch: InstallEffects['fetch'],
  report: (pack: PackInfo, bytes: number) => void,
): Promise<void> {
  if (!(await store.contents(pack))) {
    const response = await fetch(scope + pack.url);
    if (!response.ok || !response.body)
      throw new Error(`${pack.url}: the server answered ${response.status}`);
    const download = await collect(response.body, (bytes) => report(pack, bytes));
    const hash = hexadecimal(await crypto.subtle.digest('SHA-256', download));
    if (hash !== pack.sha256)
      throw new Error(`${pack.url}: its hash is ${hash}, not ${pack.sha256}`);
    await store.addPack(pack, decodePack(await gunzip(download)));
  }
  report(pack, pack.bytes);
}

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

const gunzip = (bytes: Uint8Array<ArrayBuffer>) =>
  collect(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip')));

const hexadecimal = (buffer: ArrayBuffer) =>
  [...new Uint8Array(buffer)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
