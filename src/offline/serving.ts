import { currentPath } from '../former/index.ts';
import { contentType } from './content-types.ts';
import {
  leftOutIn,
  type PackInfo,
  packsKept,
  systemOf,
  VERSION_FILE,
  type Version,
} from './manifest.ts';
import { answerFor, pathFrom } from './paths.ts';
import { answerWith, type Reader } from './reading.ts';
import { CHUNKS, chunksOf, fragmentOf, readMeta, WORDS } from './search-index.ts';
import { FROM_NETWORK, type Store } from './store.ts';

/** What of a fetch event the answer depends on; an empty identifier counts as no client. */
export interface Asked {
  readonly request: Request;
  /** Page or worker that asks. */
  readonly clientId: string;
  /** Page or worker that the answer will become. */
  readonly resultingClientId: string;
}

/**
 * Answers requests from the saved versions. A page is served from the version that was in use
 * when it was opened, and so is all it asks for, whatever is taken up meanwhile. A page that has
 * to come from the network gets all it asks for from there.
 * @param scope absolute address of the site's base, ending in a slash
 * @param fetch the network, for what no version holds
 */
export function openServing(
  store: Store,
  reader: Reader,
  scope: string,
  fetch: (request: Request) => Promise<Response>,
) {
  const indexes = new Map<string, Promise<Index | undefined>>();
  const remembered = new Map<string, string>();

  /** The files of a version, read once; undefined when it is not known. */
  async function indexOf(id: string): Promise<Index | undefined> {
    const index = indexes.get(id) ?? readIndex(store, reader, id);
    indexes.set(id, index);
    const found = await index;
    if (!found) indexes.delete(id);
    return found;
  }

  const serving = {
    /** Identifier of the version that serves a page or worker: its own, else the current one. */
    async versionOf(clientId: string): Promise<string | undefined> {
      const own = remembered.get(clientId) ?? (await store.versionOfClient(clientId));
      return own ?? store.current();
    },

    /** Clients seen since this worker started, open or about to be. */
    remembered: (): ReadonlyMap<string, string> => remembered,

    /** To be called when what is in a version's packs was written down anew. */
    forgetIndexes: () => indexes.clear(),

    /** The answer to a request within the scope. Resolves to an error response, never rejects. */
    async answer({ request, clientId, resultingClientId }: Asked): Promise<Response> {
      const opensPage = request.mode === 'navigate';
      const id = await (opensPage ? store.current() : serving.versionOf(clientId));
      const index = id === undefined ? undefined : await indexOf(id);
      const path = pathFrom(scope, request.url);
      if (!index || path === undefined) return network(request);
      const noted = note(resultingClientId, index.version.id);
      if (path === VERSION_FILE) return stamp(index.version);
      if (path.startsWith(CHUNKS)) {
        const chunk = await index.chunk(path);
        if (chunk) return chunk;
      }
      const answer = answerFor(path, (file) => index.packs.has(file));
      const now = currentPath(index.version.former ?? {}, path);
      if (now !== path) return Response.redirect(addressOf(now, request.url), 301);
      switch (answer.kind) {
        case 'redirect':
          return Response.redirect(addressOf(answer.path, request.url), 301);
        case 'file': {
          const file = await fileOf(index, answer.path);
          await noted;
          return file ?? elsewhere(request, resultingClientId, LOST);
        }
        case 'missing': {
          const system = systemOf(`${path.replace(/\/?$/, '/')}index.html`);
          if (system && leftOutIn(index.version, await store.leftOut()).has(system))
            return elsewhere(request, resultingClientId, LEFT_OUT);
          if (!index.complete) return elsewhere(request, resultingClientId, LOST);
          const page = await fileOf(index, answer.path);
          await noted;
          return page
            ? new Response(page.body, { status: 404, headers: page.headers })
            : elsewhere(request, resultingClientId, LOST);
        }
        case 'network':
          return elsewhere(request, resultingClientId, NOT_KEPT);
      }
    },
  };

  /** Remembers which version a page that is about to open is of. */
  async function note(client: string, id: string): Promise<void> {
    if (!client) return;
    remembered.set(client, id);
    await store.setVersionOfClient(client, id);
  }
  /** From the network, with all that the page will ask for; a page that says why there is none. */
  async function elsewhere(request: Request, client: string, why: string): Promise<Response> {
    const response = await network(request);
    if (request.mode !== 'navigate') return response;
    if (response.type === 'error') return gap(why, scope);
    await note(client, FROM_NETWORK);
    return response;
  }
  const fileOf = async (index: Index, path: string): Promise<Response | undefined> => {
    const pack = index.packs.get(path);
    return pack && index.read(pack, path);
  };
  const network = (request: Request) => fetch(request).catch(() => Response.error());
  const addressOf = (path: string, asked: string) => {
    const address = new URL(path.split('/').map(encodeURIComponent).join('/'), scope);
    address.search = new URL(asked).search;
    return address.href;
  };
  return serving;
}

export type Serving = ReturnType<typeof openServing>;

/** Where each file of a version is, and how it is read there. */
interface Index {
  readonly version: Version;
  readonly packs: ReadonlyMap<string, PackInfo>;
  /** Whether it is known of every pack what is in it, left-out ones aside. */
  readonly complete: boolean;
  readonly read: (pack: PackInfo, path: string) => Promise<Response | undefined>;
  /** A chunk of the search index, put together from what packs hold of it by page. */
  readonly chunk: (path: string) => Promise<Response | undefined>;
}

async function readIndex(store: Store, reader: Reader, id: string): Promise<Index | undefined> {
  const version = (await store.known(id))?.version;
  if (!version) return undefined;
  const contents = await store.contents(id);
  if (!contents) {
    const packs = await store.earlier.index(version);
    if (!packs) return undefined;
    return {
      version,
      packs,
      complete: true,
      read: store.earlier.file,
      chunk: async () => undefined,
    };
  }
  const packs = new Map<string, PackInfo>();
  const leftOut = await store.leftOut();
  for (const pack of packsKept(version, leftOut))
    for (const path of contents[pack.url] ?? []) packs.set(path, pack);
  const complete = version.packs.every(({ url, system }) => system || contents[url]);
  return { version, packs, complete, read: reader.file, chunk: chunkReader(packs, reader) };
}

/** Puts all chunks together when the first is asked for, and keeps them. */
function chunkReader(packs: ReadonlyMap<string, PackInfo>, reader: Reader): Index['chunk'] {
  let chunks: Promise<ReadonlyMap<string, Uint8Array<ArrayBuffer>> | undefined> | undefined;
  return async (path) => {
    chunks ??= readChunks(packs, reader);
    const body = (await chunks)?.get(path);
    if (!(await chunks)) chunks = undefined;
    return body && answerWith({ type: contentType(path), body });
  };
}

async function readChunks(packs: ReadonlyMap<string, PackInfo>, reader: Reader) {
  const bodies = new Map<string, Uint8Array<ArrayBuffer>>();
  const needed = new Set<PackInfo>();
  let meta: string | undefined;
  for (const [path, pack] of packs) {
    if (path.endsWith('.pf_meta')) meta = path;
    if (path === meta || path.startsWith(WORDS)) needed.add(pack);
  }
  for (const pack of needed) {
    const files = await reader.files(pack);
    if (!files) return undefined;
    for (const { path, body } of files.values()) bodies.set(path, body);
  }
  const body = meta && bodies.get(meta);
  if (!body) return undefined;
  const words = new Map<string, string>();
  for (const [path, text] of bodies)
    if (path.startsWith(WORDS)) words.set(fragmentOf(path), new TextDecoder().decode(text));
  return chunksOf(readMeta(body), words);
}

/** Version and date, as the file of that name says them when it comes from the server. */
const stamp = ({ version, date, release }: Version) => Response.json({ version, date, release });

const LOST =
  'Part of what was saved on this device is lost. It comes back by itself with a signal.';
const LEFT_OUT = 'You chose not to keep this system on this device. It needs a signal.';
const NOT_KEPT = 'This is not among what is saved on this device. It needs a signal.';

/** A page in place of one that is neither here nor to be had. */
function gap(why: string, scope: string): Response {
  const page = `<!doctype html><html lang="en-GB"><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark"><title>Needs a signal</title><h1>This page needs a signal</h1><p>${why}</p><p><a href="${scope}">First page</a></p><p><a href="${scope}saved/">What is saved here</a></p></html>`;
  return new Response(page, {
    status: 503,
    headers: { 'content-type': 'text/html; charset=utf-8' },
  });
}
