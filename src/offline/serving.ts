import type { PackInfo, Version } from './manifest.ts';
import { answerFor, pathFrom } from './paths.ts';
import type { Store } from './store.ts';

/** What of a fetch event the answer depends on; an empty identifier is none. */
export interface Asked {
  readonly request: Request;
  /** Page or worker that asks. */
  readonly clientId: string;
  /** Page or worker that the answer will become. */
  readonly resultingClientId: string;
}

/**
 * Answers requests from the saved versions. A page is served from the version that was in use
 * when it was opened, and so is all it asks for, whatever is taken up meanwhile.
 * @param scope absolute address of the site's base, ending in a slash
 * @param fetch the network, for what no version holds
 */
export function openServing(
  store: Store,
  scope: string,
  fetch: (request: Request) => Promise<Response>,
) {
  const indexes = new Map<string, Promise<Index | undefined>>();
  const remembered = new Map<string, string>();

  /** The files of a version, read once; undefined when it is not wholly saved. */
  function indexOf(id: string): Promise<Index | undefined> {
    let index = indexes.get(id);
    if (!index) {
      index = readIndex(store, id);
      indexes.set(id, index);
    }
    return index;
  }

  const serving = {
    /** Identifier of the version that serves a page or worker: its own, else the current one. */
    async versionOf(clientId: string): Promise<string | undefined> {
      const own = remembered.get(clientId) ?? (await store.versionOfClient(clientId));
      return own ?? store.current();
    },

    /** Clients seen since this worker started, open or about to be. */
    remembered: (): ReadonlyMap<string, string> => remembered,

    /** The answer to a request within the scope. Resolves to an error response, never rejects. */
    async answer({ request, clientId, resultingClientId }: Asked): Promise<Response> {
      const opensPage = request.mode === 'navigate';
      const id = await (opensPage ? store.current() : serving.versionOf(clientId));
      const index = id && (await indexOf(id));
      const path = pathFrom(scope, request.url);
      if (!index || path === undefined) return network(request);
      if (resultingClientId) {
        remembered.set(resultingClientId, id);
        await store.setVersionOfClient(resultingClientId, id);
      }
      const answer = answerFor(path, (file) => index.has(file));
      switch (answer.kind) {
        case 'redirect':
          return Response.redirect(addressOf(answer.path, request.url), 301);
        case 'file':
          return (await fileOf(index, answer.path)) ?? network(request);
        case 'missing':
          return (await notFound(index, answer.path)) ?? network(request);
        case 'network': {
          const response = await network(request);
          const page = response.type === 'error' && opensPage && (await notFound(index));
          return page || response;
        }
      }
    },
  };

  async function fileOf(index: Index, path: string): Promise<Response | undefined> {
    const pack = index.get(path);
    return pack && store.file(pack, path);
  }
  async function notFound(index: Index, path = '404.html'): Promise<Response | undefined> {
    const page = await fileOf(index, path);
    return page && new Response(page.body, { status: 404, headers: page.headers });
  }
  const network = (request: Request) => fetch(request).catch(() => Response.error());
  const addressOf = (path: string, asked: string) => {
    const address = new URL(path.split('/').map(encodeURIComponent).join('/'), scope);
    address.search = new URL(asked).search;
    return address.href;
  };
  return serving;
}

export type Serving = ReturnType<typeof openServing>;

/** Where each file of a version is. */
type Index = ReadonlyMap<string, PackInfo>;

async function readIndex(store: Store, id: string): Promise<Index | undefined> {
  const known = await store.known(id);
  return known && indexPacks(store, known.version);
}

async function indexPacks(store: Store, version: Version): Promise<Index | undefined> {
  const index = new Map<string, PackInfo>();
  for (const pack of version.packs) {
    const paths = await store.contents(pack);
    if (!paths) return undefined;
    for (const path of paths) index.set(path, pack);
  }
  return index;
}
