import { spawnSync } from 'node:child_process';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { brotliDecompressSync, gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chosenEncoding, type Serving, serve } from '../../src/cli/serve.ts';

const LONG = 'A sentence that comes again. '.repeat(200);

let folder: string;
let server: Serving;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'serve-'));
  const files = {
    'site/index.html': 'first',
    'site/404.html': 'no page',
    'site/a b/index.html': 'a b',
    'site/_astro/x.abc.js': 'export {}',
    'site/long.html': LONG,
    'site/offline/packs/pages-1.pack': 'as it is',
    'site/sw.js': '// worker',
    'secret.txt': 'outside',
  };
  for (const [path, text] of Object.entries(files)) {
    await mkdir(dirname(join(folder, path)), { recursive: true });
    await writeFile(join(folder, path), text);
  }
  server = await serve({ root: join(folder, 'site'), port: 0, base: '/base' });
});
afterAll(async () => {
  await server.stop();
  await rm(folder, { recursive: true });
});

/** Asks for a path as it stands, with nothing tidied away on the way. */
function get(path: string, method = 'GET', headers: Record<string, string> = {}) {
  return new Promise<{
    status: number;
    text: string;
    body: Buffer;
    headers: Record<string, unknown>;
  }>((resolve, reject) => {
    const { port } = new URL(server.address);
    request({ host: 'localhost', port, path, method, headers }, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk) => chunks.push(chunk));
      response.on('end', () => {
        const body = Buffer.concat(chunks);
        const { statusCode, headers } = response;
        resolve({ status: statusCode!, text: body.toString(), body, headers });
      });
    })
      .on('error', reject)
      .end();
  });
}

describe('the server', () => {
  test('says where the first page is', async () => {
    expect(server.address).toMatch(/^http:\/\/localhost:\d+\/base\/$/);
    expect((await get('/base/')).text).toBe('first');
  });

  test.each([
    ['/base/a%20b/', 200, 'a b'],
    ['/base/a%20b/index.html', 200, 'a b'],
    ['/base/_astro/x.abc.js?v=1', 200, 'export {}'],
    ['/base/nothing/', 404, 'no page'],
    ['/base/nothing.json', 404, 'no page'],
    ['/elsewhere/', 404, 'no page'],
    ['/base/../secret.txt', 404, 'no page'],
    ['/base/%2e%2e/secret.txt', 404, 'no page'],
    ['/base/..%2fsecret.txt', 404, 'no page'],
    ['/base/..%5csecret.txt', 404, 'no page'],
    ['/base/%00', 404, 'no page'],
    ['/base/100%', 404, 'no page'],
  ])('%s: %d', async (path, status, text) => {
    const answer = await get(path);
    expect([answer.status, answer.text]).toEqual([status, text]);
  });

  test('sends an address without its slash, and the root, to the right one', async () => {
    const { status, headers } = await get('/base/a%20b?q=1');
    expect([status, headers.location]).toEqual([301, '/base/a%20b/?q=1']);
    expect((await get('/')).headers.location).toBe('/base/');
    expect((await get('/base')).headers.location).toBe('/base/');
  });

  test('states media types, and lets only hashed files be kept', async () => {
    const script = (await get('/base/_astro/x.abc.js')).headers;
    expect(script['content-type']).toBe('text/javascript; charset=utf-8');
    expect(script['cache-control']).toBe('public, max-age=31536000, immutable');
    const page = (await get('/base/')).headers;
    expect(page['content-type']).toBe('text/html; charset=utf-8');
    expect(page['cache-control']).toBe('no-cache');
  });

  test('keeps packs for good, and asks for the worker again each time', async () => {
    const pack = (await get('/base/offline/packs/pages-1.pack')).headers;
    expect(pack['cache-control']).toBe('public, max-age=31536000, immutable');
    expect((await get('/base/sw.js')).headers['cache-control']).toBe('no-cache');
  });

  test.each([
    ['gzip, deflate, br', 'br', brotliDecompressSync],
    ['gzip', 'gzip', gunzipSync],
  ] as const)('compresses text for a client that takes %s', async (accepted, coding, decode) => {
    const answer = await get('/base/long.html', 'GET', { 'accept-encoding': accepted });
    expect(answer.headers['content-encoding']).toBe(coding);
    expect(answer.headers.vary).toBe('Accept-Encoding');
    expect(answer.headers['content-length']).toBe(String(answer.body.length));
    expect(answer.body.length).toBeLessThan(LONG.length / 10);
    expect(decode(answer.body).toString()).toBe(LONG);
    const head = await get('/base/long.html', 'HEAD', { 'accept-encoding': accepted });
    expect([head.body.length, head.headers]).toEqual([
      0,
      { ...answer.headers, date: head.headers.date },
    ]);
  });

  test('sends text as it is to a client that takes nothing else, and packs to every client', async () => {
    const plain = await get('/base/long.html');
    expect([plain.headers['content-encoding'], plain.text]).toEqual([undefined, LONG]);
    expect(plain.headers.vary).toBe('Accept-Encoding');
    const pack = await get('/base/offline/packs/pages-1.pack', 'GET', { 'accept-encoding': 'br' });
    expect([pack.headers['content-encoding'], pack.headers.vary, pack.text]).toEqual([
      undefined,
      undefined,
      'as it is',
    ]);
  });

  test('answers 304 to who has the file, by an etag of its own for each coding', async () => {
    const ask = (headers: Record<string, string>) => get('/base/long.html', 'GET', headers);
    const plain = String((await ask({})).headers.etag);
    const zipped = String((await ask({ 'accept-encoding': 'gzip' })).headers.etag);
    expect(zipped).not.toBe(plain);
    const again = await ask({ 'accept-encoding': 'gzip', 'if-none-match': `"x", ${zipped}` });
    expect([again.status, again.body.length, again.headers.etag]).toEqual([304, 0, zipped]);
    expect((await ask({ 'if-none-match': zipped })).status).toBe(200);
  });

  test('sends a file anew once it was built anew', async () => {
    const ask = () => get('/base/_astro/y.js', 'GET', { 'accept-encoding': 'gzip' });
    const file = join(folder, 'site/_astro/y.js');
    await writeFile(file, 'one');
    expect(gunzipSync((await ask()).body).toString()).toBe('one');
    await writeFile(file, 'three');
    expect(gunzipSync((await ask()).body).toString()).toBe('three');
  });

  test('answers HEAD without a body and refuses what would change something', async () => {
    const head = await get('/base/', 'HEAD');
    expect([head.status, head.text, head.headers['content-length']]).toEqual([200, '', '5']);
    expect((await get('/base/', 'POST')).status).toBe(405);
  });

  test('says which port is taken and how to choose another', async () => {
    const port = Number(new URL(server.address).port);
    await expect(serve({ root: folder, port })).rejects.toThrow(
      `Port ${port} is taken by another program. Choose one: PORT=${port + 1} npm run serve`,
    );
  });

  test('a start says so before it builds, as it was called', () => {
    const port = new URL(server.address).port;
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      ['src/cli/start.ts', '--firm', 'tests/example-firm'],
      { encoding: 'utf8', env: { ...process.env, PORT: port } },
    );
    expect([status, stdout, stderr]).toEqual([
      1,
      '',
      `Port ${port} is taken by another program. Choose one: PORT=${Number(port) + 1} npm start -- --firm tests/example-firm\n`,
    ]);
  });
});

test.each([
  [undefined, undefined],
  ['', undefined],
  ['identity', undefined],
  ['deflate', undefined],
  ['gzip, br', 'br'],
  ['br;q=0.5, gzip', 'gzip'],
  ['gzip;q=0', undefined],
  ['br;q=0, *', 'gzip'],
  ['*;q=0', undefined],
  ['GZIP ; q=1', 'gzip'],
])('a client that takes %j gets %j (RFC 9110, section 12.5.3)', (accepted, encoding) => {
  expect(chosenEncoding(accepted)).toBe(encoding);
});
