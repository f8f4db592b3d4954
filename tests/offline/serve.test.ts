import { spawnSync } from 'node:child_process';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Serving, serve } from '../../src/cli/serve.ts';

let folder: string;
let server: Serving;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'serve-'));
  const files = {
    'site/index.html': 'first',
    'site/404.html': 'no page',
    'site/a b/index.html': 'a b',
    'site/_astro/x.abc.js': 'export {}',
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
function get(path: string, method = 'GET') {
  return new Promise<{ status: number; text: string; headers: Record<string, unknown> }>(
    (resolve, reject) => {
      const { port } = new URL(server.address);
      request({ host: 'localhost', port, path, method }, (response) => {
        let text = '';
        response.on('data', (chunk) => {
          text += chunk;
        });
        response.on('end', () =>
          resolve({ status: response.statusCode!, text, headers: response.headers }),
        );
      })
        .on('error', reject)
        .end();
    },
  );
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
