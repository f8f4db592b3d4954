import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { expect, test } from 'vitest';
import { builtPage, openTab, PHONE } from './harness.ts';
import { siteInBrowser } from './site.ts';

const site = siteInBrowser();
const DIAGRAM = 'systems/heat-only-condensate-pump/diagram/';
/** How long the drawing is held up, ms: many times what a screen takes to be painted. */
const HELD_UP_MS = 500;

/** The site, with the drawing of one page held up while what stands before it is there. */
async function heldUp() {
  const html = builtPage(DIAGRAM);
  const drawing = html.lastIndexOf('<', html.indexOf('role="region" aria-label="Connection'));
  expect(drawing).toBeGreaterThan(0);
  const server = createServer(async ({ url = '/' }, answer) => {
    if (url !== `/${DIAGRAM}`) {
      const asked = await fetch(new URL(url, site.server.address));
      answer.writeHead(asked.status, { 'content-type': asked.headers.get('content-type') ?? '' });
      answer.end(Buffer.from(await asked.arrayBuffer()));
      return;
    }
    answer.writeHead(200, { 'content-type': 'text/html' });
    answer.write(html.slice(0, drawing));
    setTimeout(() => answer.end(html.slice(drawing)), HELD_UP_MS);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return { address: `http://localhost:${port}/`, stop: () => server.close() };
}

test('on a phone nothing moves when the drawing comes after what is said of it', async () => {
  const { address, stop } = await heldUp();
  const { page, close } = await openTab(site.chromium.browser, {
    viewport: PHONE,
    serviceWorkers: 'block',
    bypassCSP: true,
  });
  await page.addInitScript(() => {
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as (PerformanceEntry & { value: number })[]) {
        const { dataset } = document.documentElement;
        dataset.shift = String(Number(dataset.shift ?? 0) + entry.value);
      }
    }).observe({ type: 'layout-shift', buffered: true });
  });
  await page.goto(address + DIAGRAM);
  await page.locator('.pan svg:visible').waitFor();
  await page.locator('.legend').waitFor();
  const shift = () => page.evaluate(() => Number(document.documentElement.dataset.shift ?? 0));
  await page.waitForTimeout(HELD_UP_MS / 2);
  expect(await shift()).toBeLessThan(0.02);
  await close();
  stop();
});
