import { createServer, request } from 'node:http';
import type { AddressInfo } from 'node:net';
import { launch, openTab, readManifest, serveFolder, waitUntilSaved } from '../browser/harness.ts';
import { median, table } from './table.ts';

const REPEATS = 3;
/** Milliseconds that every answer is held back: a mobile network's round trip. */
const LATENCY = 60;

/** A server that passes on what it is asked for, each answer held back for a while. */
async function farAway(address: string): Promise<{ address: string; stop: () => void }> {
  const { hostname, port } = new URL(address);
  const server = createServer((asked, answer) => {
    const { url, method, headers } = asked;
    setTimeout(() => {
      const passed = request({ hostname, port, path: url, method, headers }, (got) => {
        answer.writeHead(got.statusCode ?? 500, got.headers);
        got.pipe(answer);
      });
      passed.on('error', () => answer.destroy());
      passed.end();
    }, LATENCY);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port: taken } = server.address() as AddressInfo;
  return { address: `http://localhost:${taken}/`, stop: () => server.close() };
}

/** Saving the whole site as it is packed, beside asking for its files one after the other. */
export async function offlineTable(folder = 'dist'): Promise<string> {
  const manifest = readManifest(folder);
  const files = manifest.packs.flatMap((pack) => pack.files);
  const server = await serveFolder(folder);
  const far = await farAway(server.address);
  const chromium = await launch();
  const packed: number[] = [];
  const single: number[] = [];
  try {
    for (let i = 0; i < REPEATS; i++) {
      const own = await openTab(chromium.browser);
      const began = performance.now();
      await own.page.goto(far.address);
      await waitUntilSaved(own.page);
      packed.push(performance.now() - began);
      await own.close();

      const bare = await openTab(chromium.browser, { serviceWorkers: 'block' });
      await bare.page.goto(`${far.address}version.json`);
      single.push(
        await bare.page.evaluate(async (paths) => {
          const started = performance.now();
          const cache = await caches.open('one by one');
          for (const path of paths) {
            const address = `/${path.replace(/index\.html$/, '')}`;
            await cache.put(address, await fetch(address));
          }
          return performance.now() - started;
        }, files),
      );
      await bare.close();
    }
  } finally {
    await chromium.close();
    far.stop();
    await server.stop();
  }
  const [ours, theirs] = [median(packed), median(single)];
  const row = (what: string, ms: number) => [
    what,
    (ms / 1000).toFixed(1),
    `${(ms / theirs).toFixed(2)}×`,
  ];
  return `${table(
    ['saving', 'seconds', 'ratio'],
    [row(`${manifest.packs.length} packs`, ours), row(`${files.length} files, one by one`, theirs)],
  )}

Medians of ${REPEATS}, the two taking turns, every answer ${LATENCY} ms away. The first counts from an empty
browser to "saved", its first page included.
`;
}
