import { type Brought, gunzip } from './install.ts';
import type { PackInfo } from './manifest.ts';
import { decodePack, type PackedFile } from './pack.ts';
import type { Store } from './store.ts';

/** The files of one pack, by path. */
export type Files = ReadonlyMap<string, PackedFile>;

/** Packs kept unpacked in memory: a page asks for several files of the same few. */
const OPEN_PACKS = 8;

/**
 * Reads files out of packs. A pack that is lost or damaged is fetched again, alone: its name is
 * its hash, so what comes is of the same version or does not come.
 * @param bring brings a pack onto the device, or the reason why it is not kept there
 */
export function openReader(store: Store, bring: (pack: PackInfo) => Promise<Brought>) {
  const open = new Map<string, Promise<Files | undefined>>();

  /** The files of a pack; undefined when it is not here and does not come. */
  function files(pack: PackInfo): Promise<Files | undefined> {
    const found = open.get(pack.url) ?? unpack(pack);
    // Put last: the first of the map is the one not asked for longest.
    open.delete(pack.url);
    open.set(pack.url, found);
    if (open.size > OPEN_PACKS) open.delete(open.keys().next().value!);
    return found.then((unpacked) => {
      if (!unpacked) open.delete(pack.url);
      return unpacked;
    });
  }

  async function unpack(pack: PackInfo): Promise<Files | undefined> {
    const kept = await store.pack(pack);
    if (kept) {
      try {
        return filesOf(await gunzip(kept));
      } catch {
        await store.dropPack(pack);
      }
    }
    return fetchAgain(pack);
  }

  async function fetchAgain(pack: PackInfo): Promise<Files | undefined> {
    try {
      // No room to keep it is no reason not to show it.
      const { download } = await bring(pack);
      return filesOf(await gunzip(download));
    } catch {
      return undefined;
    }
  }

  return {
    files,
    async file(pack: PackInfo, path: string): Promise<Response | undefined> {
      const file = (await files(pack))?.get(path);
      return file && answerWith(file);
    },
  };
}

export type Reader = ReturnType<typeof openReader>;

const filesOf = (pack: Uint8Array<ArrayBuffer>): Files =>
  new Map(decodePack(pack).map((file) => [file.path, file]));

/** A file as a server would send it. */
export function answerWith({ type, body }: Pick<PackedFile, 'type' | 'body'>): Response {
  const headers = { 'content-type': type, 'content-length': String(body.length) };
  return new Response(body, { headers });
}
