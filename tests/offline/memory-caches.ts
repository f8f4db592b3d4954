/**
 * Cache storage held in memory: what of it the worker uses, as the Service Workers draft says.
 * @param allow whether there is room for what is put under an address
 */
export function memoryCaches(
  allow: (url: string) => boolean = () => true,
): CacheStorage & { readonly writes: string[] } {
  const caches = new Map<string, ReturnType<typeof memoryCache>>();
  const writes: string[] = [];
  return {
    writes,
    async open(name) {
      const cache = caches.get(name) ?? memoryCache(allow, (url) => writes.push(url));
      caches.set(name, cache);
      return cache;
    },
    async match(request, options) {
      return options?.cacheName ? caches.get(options.cacheName)?.match(request) : undefined;
    },
    has: async (name) => caches.has(name),
    keys: async () => [...caches.keys()],
    delete: async (name) => caches.delete(name),
  };
}

function memoryCache(allow: (url: string) => boolean, onPut: (url: string) => void): Cache {
  const entries = new Map<string, Response>();
  const urlOf = (request: RequestInfo | URL) =>
    request instanceof Request ? request.url : String(request);
  const notUsed = () => Promise.reject(new Error('the worker does not use this'));
  return {
    async put(request, response) {
      const url = urlOf(request);
      if (!allow(url)) throw new DOMException('no room', 'QuotaExceededError');
      onPut(url);
      entries.set(url, response);
    },
    match: async (request) => entries.get(urlOf(request))?.clone(),
    keys: async () => [...entries.keys()].map((url) => new Request(url)),
    delete: async (request) => entries.delete(urlOf(request)),
    add: notUsed,
    addAll: notUsed,
    matchAll: notUsed,
  };
}
