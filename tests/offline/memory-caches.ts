/** Cache storage held in memory: what of it the worker uses, as the Service Workers draft says. */
export function memoryCaches(): CacheStorage & { readonly writes: string[] } {
  const caches = new Map<string, ReturnType<typeof memoryCache>>();
  const writes: string[] = [];
  return {
    writes,
    async open(name) {
      const cache = caches.get(name) ?? memoryCache((url) => writes.push(url));
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

function memoryCache(onPut: (url: string) => void): Cache {
  const entries = new Map<string, Response>();
  const urlOf = (request: RequestInfo | URL) =>
    request instanceof Request ? request.url : String(request);
  const notUsed = () => Promise.reject(new Error('the worker does not use this'));
  return {
    async put(request, response) {
      onPut(urlOf(request));
      entries.set(urlOf(request), response);
    },
    match: async (request) => entries.get(urlOf(request))?.clone(),
    keys: async () => [...entries.keys()].map((url) => new Request(url)),
    delete: async (request) => entries.delete(urlOf(request)),
    add: notUsed,
    addAll: notUsed,
    matchAll: notUsed,
  };
}
