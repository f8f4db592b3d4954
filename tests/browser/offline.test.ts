import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  builtPage,
  launch,
  openTab,
  pagesOf,
  readManifest,
  serveFolder,
  type TestBrowser,
  waitUntilSaved,
} from './harness.ts';

let chromium: TestBrowser;
let tab: Awaited<ReturnType<typeof openTab>>;
let site: string;
let saved: string;
const manifest = readManifest();

/** One visit to the first page, then no server any more. */
beforeAll(async () => {
  chromium = await launch();
  const server = await serveFolder();
  site = server.address;
  tab = await openTab(chromium.browser);
  await tab.page.goto(site);
  saved = await waitUntilSaved(tab.page);
  await server.stop();
});
afterAll(() => chromium.close());

describe('after one visit, with no signal,', () => {
  test('the footer says what is saved', () => {
    expect(saved).toMatch(
      new RegExp(
        `^Saved for offline: ${manifest.pages} pages, [0-9.]+ MB, dated \\d{1,2} [A-Z][a-z]{2} \\d{4}\\. Last checked .+\\.$`,
      ),
    );
  });

  test('nothing answers at the address but what is saved', async () => {
    await expect(fetch(site)).rejects.toThrow();
  });

  test('every page of the manifest opens as it was built', async () => {
    const pages = pagesOf(manifest);
    expect(pages).toHaveLength(manifest.pages);
    for (const path of pages) {
      const response = await tab.page.goto(site + path, { waitUntil: 'load' });
      expect([path, response?.status()]).toEqual([path, 200]);
      expect(await response?.text()).toBe(builtPage(path));
      const styled = await tab.page.evaluate(() => document.styleSheets[0]!.cssRules.length > 10);
      expect([path, styled]).toEqual([path, true]);
    }
    expect(tab.complaints).toEqual({ console: [], foreign: [] });
  });
});
