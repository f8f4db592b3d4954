import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Serving, serve } from '../../src/cli/serve.ts';
import { checkPublished, findingText } from '../../src/publish/served/index.ts';
import { DIST } from '../support/site-folder.ts';

/** An answer as a host sends it. */
interface Sent {
  status: number;
  headers: Headers;
  body: Buffer;
}
/** What a host gets wrong: changes an answer on its way. */
type Wrong = (path: string, sent: Sent) => void;

let right: Serving;
let host: ReturnType<typeof createServer>;
let address: string;
let wrong: Wrong = () => {};
const paths: string[] = [];

/** A host that passes on what the project's own server answers, one thing of it wrong. */
beforeAll(async () => {
  right = await serve({ root: DIST, port: 0 });
  host = createServer(async (request, response) => {
    const path = request.url!.slice(1);
    paths.push(path);
    const answer = await fetch(right.address + path, {
      redirect: 'manual',
      headers: { 'accept-encoding': 'gzip' },
    });
    const sent = {
      status: answer.status,
      headers: new Headers(answer.headers),
      body: Buffer.from(await answer.arrayBuffer()),
    };
    wrong(path, sent);
    sent.headers.delete('content-length');
    const isGzip = sent.headers.get('content-encoding') === 'gzip';
    response.writeHead(sent.status, [...sent.headers].flat());
    response.end(isGzip ? gzipSync(sent.body) : sent.body);
  }).listen(0);
  await once(host, 'listening');
  address = `http://localhost:${(host.address() as AddressInfo).port}/`;
});
afterAll(async () => {
  host.closeAllConnections();
  host.close();
  await right.stop();
});

/** What is found of a host with one thing wrong: its cause, and the file it is first told of. */
async function found(one: Wrong): Promise<string[]> {
  wrong = one;
  const { findings } = await checkPublished(address);
  return findings.map(({ what, path }) => `${path}: ${what}`);
}
const header =
  (which: RegExp, name: string, value: string | null): Wrong =>
  (path, { headers }) => {
    if (!which.test(path)) return;
    if (value === null) headers.delete(name);
    else headers.set(name, value);
  };

describe('a host that serves the site as it must', () => {
  test('is told so, for the project’s own server', async () => {
    expect(await checkPublished(right.address)).toMatchObject({
      base: right.address,
      findings: [],
    });
  });

  test('is asked a bounded number of times, for files of the site alone', async () => {
    paths.length = 0;
    expect(await found(() => {})).toEqual([]);
    expect(paths.length).toBeLessThan(60);
    expect(new Set(paths).size).toBe(paths.length);
    const elsewhere: string[] = [];
    await checkPublished(address, (to, init) => {
      if (to.origin !== new URL(address).origin) elsewhere.push(to.href);
      return fetch(to, init);
    });
    expect(elsewhere).toEqual([]);
  });

  test('may say the same in other words', async () => {
    const said: readonly Wrong[] = [
      header(/^sw\.js$/, 'cache-control', 'max-age=0, must-revalidate'),
      header(/\.js$/, 'content-type', 'application/javascript'),
      header(/./, 'referrer-policy', 'No-Referrer'),
      header(/./, 'content-security-policy', "frame-ancestors 'none'; base-uri 'none'"),
    ];
    for (const one of said) expect(await found(one)).toEqual([]);
  });
});

/** Each thing that a host gets wrong, and the one thing that is then said. */
const WRONG: readonly [string, Wrong, RegExp][] = [
  ['sends text uncompressed', header(/./, 'content-encoding', null), /: text is sent uncompressed/],
  [
    'compresses packs again',
    header(/\.pack$/, 'content-encoding', 'gzip'),
    /^offline\/packs\/.*: what comes compressed is compressed again/,
  ],
  [
    'lets hashed files grow old',
    header(/^_astro\//, 'cache-control', 'max-age=600'),
    /^_astro\/.*: a file that never changes is asked for again/,
  ],
  [
    'lets packs grow old',
    header(/\.pack$/, 'cache-control', null),
    /^offline\/packs\/.*: a file that never changes is asked for again/,
  ],
  ...['sw.js', 'version.json', 'offline/manifest.json'].map((file): [string, Wrong, RegExp] => [
    `keeps ${file}`,
    header(new RegExp(`^${file}$`), 'cache-control', 'public, max-age=86400'),
    new RegExp(`^${file}: an old answer may stand in for this file`),
  ]),
  ...[
    'X-Content-Type-Options',
    'X-Frame-Options',
    'Content-Security-Policy',
    'Referrer-Policy',
    'Permissions-Policy',
    'Cross-Origin-Opener-Policy',
    'Cross-Origin-Resource-Policy',
  ].map((name): [string, Wrong, RegExp] => [
    `leaves out ${name}`,
    header(/^/, name, null),
    new RegExp(`^: a security header is missing: ${name}$`),
  ]),
  [
    'lets others frame the pages',
    header(/^/, 'x-frame-options', 'SAMEORIGIN'),
    /^: a security header is another: X-Frame-Options$/,
  ],
  [
    'sends scripts as text',
    header(/\.js$/, 'content-type', 'text/plain'),
    /\.js: the wrong content type/,
  ],
  [
    'sends the manifest as bytes',
    header(/webmanifest$/, 'content-type', 'application/octet-stream'),
    /^manifest\.webmanifest: the wrong content type/,
  ],
  [
    'tells a page that is not there as if it were',
    (path, sent) => {
      if (path.startsWith('there-is-no')) sent.status = 200;
    },
    /: a page that is not there is told as if it were/,
  ],
  [
    'has a page of its own for what is not there',
    (path, sent) => {
      if (path.startsWith('there-is-no')) sent.body = Buffer.from('<h1>Not found</h1>');
    },
    /: a page that is not there is not answered by the site’s own page/,
  ],
  [
    'alters packs',
    (path, { body }) => {
      if (path.endsWith('.pack')) body[body.length - 1]! ^= 1;
    },
    /^offline\/packs\/.*: a pack is altered on its way/,
  ],
  [
    'alters the search index',
    (path, sent) => {
      if (path.endsWith('.pf_meta')) sent.body = Buffer.from(sent.body.toString('utf8'), 'utf8');
    },
    /\.pf_meta: the search index is altered on its way/,
  ],
  [
    'adds to pages',
    (path, sent) => {
      if (path === '') sent.body = Buffer.concat([sent.body, Buffer.from('<!-- counted -->')]);
    },
    /^: the page that is served is not the one that was built/,
  ],
  [
    'holds half of an upload',
    (path, sent) => {
      if (path === 'version.json') sent.body = Buffer.from('{"version":"older"}');
    },
    /^version\.json: files of two versions are served together/,
  ],
  [
    'leaves out a file',
    (path, sent) => {
      if (path === 'manifest.webmanifest') sent.status = 404;
    },
    /^manifest\.webmanifest: a file of the site is not there/,
  ],
  [
    'sends a file elsewhere',
    (path, sent) => {
      if (path !== 'sw.js') return;
      sent.status = 302;
      sent.headers.set('location', 'https://elsewhere.example/sw.js');
    },
    /^sw\.js: a file of the site is sent elsewhere/,
  ],
  [
    'serves it under another path than it was built for',
    (path, sent) => {
      if (path === '')
        sent.body = Buffer.from(String(sent.body).replace('data-base="/"', 'data-base="/field/"'));
    },
    /^: the site was built for another path of the host/,
  ],
];

describe('a host that gets one thing wrong', () => {
  test.each(WRONG)('%s', async (_, one, said) => {
    const all = await found(one);
    expect(all).toEqual([expect.stringMatching(said)]);
  });

  test('is told the cause, what was found, what is allowed and how to put it right', async () => {
    wrong = header(/^sw\.js$/, 'cache-control', 'max-age=86400');
    const { base, findings } = await checkPublished(address);
    expect(findings.map((one) => findingText(base, one))).toEqual([
      `${address}sw.js: an old answer may stand in for this file, and phones are not told of a new version
  found    cache-control: max-age=86400
  allowed  cache-control: no-cache
  mend     Tell the host, as README shows under “Publishing”: this header for sw.js, version.json, offline/manifest.json; empty any cache before the host`,
    ]);
  });
});

describe('an address that cannot be checked', () => {
  const refusal = (to: string, ...rest: [] | [Parameters<typeof checkPublished>[1]]) =>
    checkPublished(to, ...rest).then(
      () => 'checked',
      (error: Error) => error.message,
    );

  test('is refused with what it is', async () => {
    wrong = () => {};
    expect(await refusal('ours.example')).toContain('ours.example is no web address');
    expect(await refusal('ftp://ours.example/')).toContain('is no web address');
    expect(await refusal(`${address}no-such/`)).toBe(
      `${address}no-such/ answers with status 404: there is no site at this address. Give that of the site’s first page`,
    );
    wrong = (_, sent) => {
      sent.body = Buffer.from('<h1>Coming soon</h1>');
    };
    expect(await refusal(address)).toContain('holds a page that no build of Proveline wrote');
    wrong = (_, sent) => {
      sent.status = 301;
      sent.headers.set('location', 'https://elsewhere.example/');
    };
    expect(await refusal(address)).toBe(
      `${address} sends readers on to https://elsewhere.example/. Check that address instead`,
    );
    const port = (host.address() as AddressInfo).port;
    expect(await refusal(`http://localhost:${port === 1024 ? 1025 : 1}/`)).toContain(
      'does not answer',
    );
  });

  test('is told that it needs https, this machine apart', async () => {
    wrong = () => {};
    const { findings } = await checkPublished('http://ours.example/', (to, init) =>
      fetch(new URL(to.pathname, address), init),
    );
    expect(findings.map(({ what }) => what)).toEqual([
      'phones save nothing for offline use from an address without https',
    ]);
    const secure = await checkPublished('https://ours.example/', async (to, init) => {
      const answer = await fetch(new URL(to.pathname, address), init);
      const headers = new Headers(answer.headers);
      headers.delete('strict-transport-security');
      return new Response(await answer.arrayBuffer(), { status: answer.status, headers });
    });
    expect(secure.findings.map(({ what }) => what)).toEqual([
      'a security header is missing: Strict-Transport-Security',
    ]);
  });
});
