import { createHash } from 'node:crypto';
import { readFile, stat } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join, relative, resolve } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';
import { FIRM_FILE } from '../../schemas/index.ts';
import { typedPath } from '../folder/index.ts';
import { contentType } from '../offline/content-types.ts';
import { answerFor, pathFrom } from '../offline/paths.ts';
import { cacheControl, isText, SECURITY_HEADERS } from '../publish/headers.ts';
import { builtBase } from './base-path.ts';
import { readOptions, runCommand, text } from './options.ts';
import { OUT } from './output.ts';

/** What is served, and where. */
export interface ServeOptions {
  /** Folder of the built site. */
  readonly root: string;
  /** 0 takes any free port. */
  readonly port: number;
  /** Path the site was built for, as in /reference; / when it stands at the root. */
  readonly base?: string;
  /** Network address listened on; if absent, this machine alone can reach it. */
  readonly host?: string;
  /** The command that serves, to be said with another port where this one is taken. */
  readonly command?: string;
}

const SERVE = 'npm run serve';
const MOST_PORT = 65_535;

/** A server that runs. */
export interface Serving {
  /** Address of the site's first page, ending in a slash. */
  readonly address: string;
  /** Closes the server and every connection to it. */
  readonly stop: () => Promise<void>;
}

/**
 * Serves a folder of static files: `x/` as `x/index.html`, `x` sent to `x/`, `404.html` with
 * status 404 for what is not there. Text is compressed. Files whose name carries their hash may
 * be kept by the browser for good, all others are asked for again each time.
 * @throws Error that says what to do when the port is taken or not allowed
 */
export async function serve({
  root,
  port,
  base = '/',
  host = '127.0.0.1',
  command = SERVE,
}: ServeOptions): Promise<Serving> {
  const basePath = `/${base.replaceAll(/^\/+|\/+$/g, '')}/`.replace('//', '/');
  const folder: Folder = { root, made: new Map() };
  const server = createServer((request, response) => {
    answer(folder, basePath, request, response).catch(() => {
      if (!response.headersSent) response.writeHead(500);
      response.end();
    });
  });
  await listening(server, port, host, command);
  const { port: taken } = server.address() as AddressInfo;
  return {
    address: `http://${host === '127.0.0.1' ? 'localhost' : host}:${taken}${basePath}`,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

/** The folder served, and what of it was compressed so far. */
interface Folder {
  readonly root: string;
  readonly made: Map<string, Sent>;
}

async function answer(
  folder: Folder,
  base: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const { root } = folder;
  const { method = 'GET', url = '/' } = request;
  if (method !== 'GET' && method !== 'HEAD') {
    response.writeHead(405, { allow: 'GET, HEAD' }).end();
    return;
  }
  // The host is of no matter: only the path chooses the file.
  const address = new URL(`http://any${url.startsWith('/') ? url : '/'}`);
  const path = pathFrom(`http://any${base}`, address.href);
  if (path === undefined) {
    const home = `${address.pathname}/` === base || address.pathname === '/';
    if (home) response.writeHead(302, { location: base }).end();
    else await send(folder, '404.html', 404, request, response);
    return;
  }
  const candidates = [path, `${path}/index.html`, `${path}index.html`, `${path}.html`];
  const there = new Set<string>(['404.html']);
  for (const file of candidates) if (await isFile(root, file)) there.add(file);
  const found = answerFor(path, (file) => there.has(file));
  if (found.kind === 'file') await send(folder, found.path, 200, request, response);
  else if (found.kind === 'redirect') {
    const location = base + found.path.split('/').map(encodeURIComponent).join('/');
    response.writeHead(301, { location: location + address.search }).end();
  } else await send(folder, '404.html', 404, request, response);
}

async function isFile(root: string, path: string): Promise<boolean> {
  // A path with a step upwards, or a backslash, may lead out of the folder.
  if (/(^|[/\\])\.\.([/\\]|$)|[\\\0]/.test(path)) return false;
  try {
    return (await stat(join(root, path))).isFile();
  } catch {
    return false;
  }
}

/** A file as it is sent. */
interface Sent {
  /** Time and size of the file that it was made from. */
  readonly stamp: string;
  readonly body: Buffer;
  readonly headers: Readonly<Record<string, string | number>>;
}

/** Sends a file, compressed where that helps and the client can read it; 304 when it has it. */
async function send(
  { root, made }: Folder,
  path: string,
  status: number,
  { method, headers }: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const file = join(root, path);
  const found = (await isFile(root, path)) ? await stat(file) : undefined;
  if (!found) {
    response.writeHead(404, { 'content-type': 'text/plain; charset=utf-8' }).end('Not found\n');
    return;
  }
  const encoding = isText(path) ? chosenEncoding(headers['accept-encoding']) : undefined;
  const key = `${path} ${encoding}`;
  const before = made.get(key);
  const stamp = `${found.mtimeMs} ${found.size}`;
  const sent = before?.stamp === stamp ? before : await makeSent(file, path, stamp, encoding);
  // Only what took work is kept.
  if (encoding) made.set(key, sent);
  const same = headers['if-none-match']?.split(',').some((tag) => tag.trim() === sent.headers.etag);
  if (status === 200 && same) {
    const { 'content-length': _, ...rest } = sent.headers;
    response.writeHead(304, rest).end();
    return;
  }
  response.writeHead(status, sent.headers);
  response.end(method === 'HEAD' ? undefined : sent.body);
}

async function makeSent(
  file: string,
  path: string,
  stamp: string,
  encoding?: Encoding,
): Promise<Sent> {
  const plain = await readFile(file);
  const body = encoding ? await ENCODERS[encoding](plain) : plain;
  const hash = createHash('sha256').update(plain).digest('hex').slice(0, 16);
  return {
    stamp,
    body,
    headers: {
      'content-type': contentType(path),
      'content-length': body.length,
      ...(encoding ? { 'content-encoding': encoding } : {}),
      ...(isText(path) ? { vary: 'Accept-Encoding' } : {}),
      etag: `"${hash}${encoding ? `-${encoding}` : ''}"`,
      'cache-control': cacheControl(path),
      ...SECURITY_HEADERS,
    },
  };
}

type Encoding = 'br' | 'gzip';

/** Level 5 of brotli is quicker than gzip’s 9 and smaller. */
const ENCODERS: Readonly<Record<Encoding, (plain: Buffer) => Promise<Buffer>>> = {
  br: (plain) =>
    promisify(brotliCompress)(plain, { params: { [constants.BROTLI_PARAM_QUALITY]: 5 } }),
  gzip: promisify(gzip),
};

/** The encoding a client likes best of those there are (RFC 9110, section 12.5.3). */
export function chosenEncoding(accepted: string | string[] | undefined): Encoding | undefined {
  const weights = new Map(
    String(accepted ?? '')
      .split(',')
      .map((part) => {
        const [name = '', ...parameters] = part.split(';').map((text) => text.trim().toLowerCase());
        const q = parameters.find((one) => one.startsWith('q='));
        return [name, q ? Number(q.slice(2)) : 1] as const;
      }),
  );
  const weight = (name: Encoding) => weights.get(name) ?? weights.get('*') ?? 0;
  const best = weight('br') >= weight('gzip') ? 'br' : 'gzip';
  return weight(best) > 0 ? best : undefined;
}

function listening(server: Server, port: number, host: string, command: string): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', (failure: NodeJS.ErrnoException) =>
      reject(explain(failure, port, command)),
    );
    server.listen(port, host, resolve);
  });
}

function explain(failure: NodeJS.ErrnoException, port: number, command: string): Error {
  if (failure.code === 'EADDRINUSE')
    return new Error(
      `Port ${port} is taken by another program. Choose one: PORT=${port < MOST_PORT ? port + 1 : port - 1} ${command}`,
    );
  if (failure.code === 'EACCES')
    return new Error(
      `Port ${port} is not allowed here. Choose one above 1024: PORT=4321 ${command}`,
    );
  return failure;
}

/** Where PORT and HOST say. */
function askedPlace(): { port: number; host: string } {
  const said = process.env.PORT ?? '4321';
  const port = Number(said);
  if (!Number.isInteger(port) || port < 0 || port > MOST_PORT)
    throw new Error(`PORT is ${said}; a port is a whole number from 1 to ${MOST_PORT}`);
  return { port, host: process.env.HOST || '127.0.0.1' };
}

/**
 * Finds out, before the work of a build, whether the port asked for can be had.
 * @param command as it was called, to be said with another port
 * @throws Error that says what to do when it cannot
 */
export async function tryPort(command: string): Promise<void> {
  const { port, host } = askedPlace();
  const server = createServer();
  await listening(server, port, host, command);
  await new Promise((resolve) => server.close(resolve));
}

/**
 * Serves a built folder where PORT and HOST say, under the path it was built for.
 * @throws Error that says what to do when there is no site or no port
 */
export async function serveAsAsked(root: string, command = SERVE): Promise<void> {
  const { port, host } = askedPlace();
  const name = relative('.', root) || root;
  if (!(await isFile(root, 'index.html')))
    throw new Error(
      (await isFile(root, FIRM_FILE))
        ? `${name}/ is the folder of a firm, not a built site: it holds ${FIRM_FILE} and no index.html. Build it, and serve what is built: npm run build -- --firm ${typedPath(name)} --out ${typedPath(`${name}-site`)}`
        : `There is no site in ${name}/ yet. Build it: npm run build`,
    );
  const base = process.env.BASE_PATH ?? (await builtBase(root));
  const { address } = await serve({ root, port, base, host, command });
  console.log(`Serving ${name}/ at ${address}  (Ctrl+C stops it)`);
}

const USAGE = `npm run serve [-- --out folder]
  serves a built site (default: dist); PORT and HOST say where`;

if (import.meta.main)
  await runCommand(async () => {
    const asked = readOptions(process.argv.slice(2), { out: 'value' }, USAGE);
    await serveAsAsked(resolve(text(asked, 'out') ?? OUT));
    return undefined;
  });
