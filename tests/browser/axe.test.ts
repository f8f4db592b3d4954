import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { serveAxe, unfold, violations } from './accessibility.ts';
import { onePageOfEachKind, openTab } from './harness.ts';
import { SHORT_VISITS, siteInBrowser } from './site.ts';

const site = siteInBrowser(SHORT_VISITS);
let axe: Awaited<ReturnType<typeof serveAxe>>;
let tab: Awaited<ReturnType<typeof openTab>>;

/** One tab for all pages, each of which finds nothing kept, as on a phone that is new to the site. */
beforeAll(async () => {
  axe = await serveAxe();
  tab = await openTab(site.chromium.browser, {
    serviceWorkers: 'block',
    colorScheme: 'dark',
    bypassCSP: true,
  });
  await tab.page.addInitScript(() => {
    if (origin === 'null') return;
    localStorage.clear();
    sessionStorage.clear();
  });
});
afterAll(() => Promise.all([tab.close(), axe.stop()]));

// In light colours every page is checked where all pages are opened.
describe('axe finds nothing in dark colours', () => {
  test.each(onePageOfEachKind())('on /%s', async (path) => {
    const { page } = tab;
    await page.goto(site.server.address + path);
    expect(await page.evaluate(() => matchMedia('(prefers-color-scheme: dark)').matches)).toBe(
      true,
    );
    await unfold(page);
    expect(await violations(page, axe.address)).toEqual([]);
  });
});
