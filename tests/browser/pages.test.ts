import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  DESK,
  launch,
  openTab,
  PHONE,
  pagesOf,
  readManifest,
  serveFolder,
  type TestBrowser,
} from './harness.ts';

let chromium: TestBrowser;
let server: Awaited<ReturnType<typeof serveFolder>>;
const pages = pagesOf(readManifest());

beforeAll(async () => {
  chromium = await launch();
  server = await serveFolder();
});
afterAll(async () => {
  await chromium.close();
  await server.stop();
});

describe.each([
  ['a phone', PHONE],
  ['a desk', DESK],
])('on %s', (_, viewport) => {
  test('every page opens without a complaint, asks no other host, scrolls no way but down', async () => {
    const tab = await openTab(chromium.browser, { viewport, serviceWorkers: 'block' });
    // The worker is blocked here for speed; the console says so once a page.
    const own = (line: string) => !/service ?worker/i.test(line);
    for (const path of pages) {
      const response = await tab.page.goto(server.address + path, { waitUntil: 'load' });
      expect([path, response?.status()]).toEqual([path, path === '404.html' ? 404 : 200]);
      const wide = await tab.page.evaluate(
        () => document.documentElement.scrollWidth > document.documentElement.clientWidth,
      );
      expect([path, wide]).toEqual([path, false]);
    }
    const failed404 = (line: string) => !/404 \(Not Found\).*404\.html/.test(line);
    expect(tab.complaints.console.filter(own).filter(failed404)).toEqual([]);
    expect(tab.complaints.foreign).toEqual([]);
    await tab.close();
  });
});
