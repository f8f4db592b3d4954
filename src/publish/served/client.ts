/** What a published address answered for one path. */
export interface Answer {
  /** From the site's base; '' is its first page. */
  readonly path: string;
  readonly status: number;
  readonly headers: Headers;
  /** As a browser reads it, its content encoding undone. */
  readonly body: Uint8Array<ArrayBuffer>;
}

/** Asks one address for the files of the site that it holds, and nothing else. */
export interface Client {
  /** The site's base, ending in a slash. */
  readonly base: URL;
  /** How often it has asked. */
  readonly asked: () => number;
  /**
   * Asks for a file; no redirection is followed.
   * @throws Error that says why there is no answer
   */
  readonly get: (path: string) => Promise<Answer>;
}

/** How often one check asks at most, how long it waits, and how much it reads of an answer. */
const MOST_REQUESTS = 60;
const PATIENCE = 10_000;
const MOST_BYTES = 4_000_000;

/** What asking needs of the network; tests give their own. */
export type Fetch = (address: URL, init: RequestInit) => Promise<Response>;

/**
 * A client of one site.
 * @param address of the site's first page
 * @throws Error when it is no web address
 */
export function clientOf(address: string, ask: Fetch = fetch, patience = PATIENCE): Client {
  const base = baseFrom(address);
  let count = 0;
  return {
    base,
    asked: () => count,
    async get(path) {
      const to = new URL(path, base);
      if (to.origin !== base.origin || !to.pathname.startsWith(base.pathname))
        throw new Error(`${to.href} lies outside ${base.href}, and is not asked for`);
      if (count >= MOST_REQUESTS)
        throw new Error(`${base.href} was asked ${count} times, which is all that a check asks`);
      count += 1;
      try {
        const response = await ask(to, {
          redirect: 'manual',
          headers: { 'accept-encoding': 'br, gzip' },
          signal: AbortSignal.timeout(patience),
        });
        const { status, headers } = response;
        return { path, status, headers, body: await bodyOf(response) };
      } catch (error) {
        throw new Error(`${to.href} does not answer: ${causeOf(error, patience)}`);
      }
    },
  };
}

function baseFrom(address: string): URL {
  const given = URL.parse(address);
  if (!given || !/^https?:$/.test(given.protocol))
    throw new Error(
      `${address} is no web address. Give that of the site’s first page, as https://host.example/reference/`,
    );
  given.search = '';
  given.hash = '';
  given.pathname = given.pathname.replace(/(index\.html)?$/, '').replace(/\/*$/, '/');
  return given;
}

async function bodyOf({ body }: Response): Promise<Uint8Array<ArrayBuffer>> {
  const parts: Uint8Array[] = [];
  let bytes = 0;
  const reader = body?.getReader();
  for (let read = await reader?.read(); read?.value; read = await reader?.read()) {
    bytes += read.value.length;
    if (bytes > MOST_BYTES) {
      await reader?.cancel();
      throw new Error('it is longer than any file of a site');
    }
    parts.push(read.value);
  }
  return new Uint8Array(Buffer.concat(parts));
}

/** What stopped an answer, in words where it is known. */
function causeOf(error: unknown, patience: number): string {
  const { name, message, cause } = error as Error;
  if (name === 'TimeoutError') return `nothing came within ${patience / 1000} s`;
  const code = (cause as NodeJS.ErrnoException | undefined)?.code ?? '';
  const known: Readonly<Record<string, string>> = {
    ENOTFOUND: 'there is no host of this name',
    ECONNREFUSED: 'nothing listens there',
    ECONNRESET: 'the connection was cut',
    UND_ERR_SOCKET: 'the connection was cut',
  };
  if (known[code]) return known[code];
  return /CERT|SSL|TLS/.test(code)
    ? `its certificate is refused (${code}); a browser would refuse it too`
    : ((cause as Error | undefined)?.message ?? message);
}
