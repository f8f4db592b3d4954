import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launch, openTab, serveFolder, type TestBrowser } from './harness.ts';

let chromium: TestBrowser;
let server: Awaited<ReturnType<typeof serveFolder>>;
/** The largest system's pages are the heaviest. */
const LARGEST = 'systems/heat-only-condensate-pump/';
const PAGES = [
  LARGEST,
  `${LARGEST}readings/`,
  `${LARGEST}sheet/`,
  `${LARGEST}sequences/anything/`,
  'systems/combi-two-wire/',
  '',
];
const MOST_SCRIPT = 60 * 1024;

beforeAll(async () => {
  chromium = await launch();
  server = await serveFolder();
});
afterAll(async () => {
  await chromium.close();
  await server.stop();
});

describe.each(PAGES)('/%s', (path) => {
  test('brings at most 60 KB of JavaScript before anything is touched, gzipped', async () => {
    const { page, close } = await openTab(chromium.browser, { serviceWorkers: 'block' });
    const scripts: Promise<Buffer>[] = [];
    page.on('response', (response) => {
      if (response.request().resourceType() === 'script') scripts.push(response.body());
    });
    // Long pages are still read when the network first rests.
    await page.goto(server.address + path, { waitUntil: 'load' });
    await page.waitForLoadState('networkidle');
    const inline = await page.locator('script:not([src])').allTextContents();
    const bodies = [...(await Promise.all(scripts)), ...inline.map((text) => Buffer.from(text))];
    const bytes = bodies.reduce((sum, body) => sum + gzipSync(body).length, 0);
    expect(bytes).toBeGreaterThan(0);
    expect(bytes).toBeLessThan(MOST_SCRIPT);
    await close();
  });

  test('does not shift while it loads', async () => {
    const { page, close } = await openTab(chromium.browser);
    await page.addInitScript(() => {
      let shift = 0;
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries())
          shift += (entry as PerformanceEntry & { value: number }).value;
        document.documentElement.dataset.shift = String(shift);
      }).observe({ type: 'layout-shift', buffered: true });
    });
    await page.goto(server.address + path, { waitUntil: 'networkidle' });
    const shift = await page.evaluate(() => document.documentElement.dataset.shift ?? '0');
    expect(Number(shift)).toBe(0);
    await close();
  });
});

test('a system’s diagram stands in the page itself', async () => {
  const { page, close } = await openTab(chromium.browser);
  await page.goto(`${server.address}${LARGEST}diagram/`);
  expect(await page.locator('#diagram svg path').count()).toBeGreaterThan(20);
  expect(await page.locator('#diagram img, #diagram object').count()).toBe(0);
  await close();
});
