import { readFile, stat } from 'node:fs/promises';
import { createServer, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join, relative, resolve } from 'node:path';
import { contentType } from '../offline/content-types.ts';
import { answerFor, pathFrom } from '../offline/paths.ts';
import { SECURITY_HEADERS } from '../publish/headers.ts';
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
 * status 404 for what is not there. Files whose name carries their hash may be kept by the
 * browser for good, all others are asked for again each time.
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
  const server = createServer((request, response) => {
    const url = request.url ?? '/';
    answer(root, basePath, request.method ?? 'GET', url, response).catch(() => {
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

async function answer(
  root: string,
  base: string,
  method: string,
  url: string,
  response: ServerResponse,
): Promise<void> {
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
    else await send(root, '404.html', 404, method, response);
    return;
  }
  const candidates = [path, `${path}/index.html`, `${path}index.html`, `${path}.html`];
  const there = new Set<string>(['404.html']);
  for (const file of candidates) if (await isFile(root, file)) there.add(file);
  const found = answerFor(path, (file) => there.has(file));
  if (found.kind === 'file') await send(root, found.path, 200, method, response);
  else if (found.kind === 'redirect') {
    const location = base + found.path.split('/').map(encodeURIComponent).join('/');
    response.writeHead(301, { location: location + address.search }).end();
  } else await send(root, '404.html', 404, method, response);
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

async function send(
  root: string,
  path: string,
  status: number,
  method: string,
  response: ServerResponse,
): Promise<void> {
  const body = (await isFile(root, path)) ? await readFile(join(root, path)) : undefined;
  if (!body) {
    response.writeHead(404, { 'content-type': 'text/plain; charset=utf-8' }).end('Not found\n');
    return;
  }
  const hashed = /^(_astro|offline\/[a-z]+-)/.test(path);
  response.writeHead(status, {
    'content-type': contentType(path),
    'content-length': body.length,
    'cache-control': hashed ? 'public, max-age=31536000, immutable' : 'no-cache',
    ...SECURITY_HEADERS,
  });
  response.end(method === 'HEAD' ? undefined : body);
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
    throw new Error(`There is no site in ${name}/ yet. Build it: npm run build`);
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
