import { describe, expect, test } from 'vitest';
import { unfold, violations } from './accessibility.ts';
import { onePageOfEachKind, openTab } from './harness.ts';
import { SHORT_VISITS, siteInBrowser } from './site.ts';

const site = siteInBrowser(SHORT_VISITS);

// In light colours every page is checked where all pages are opened.
describe('axe finds nothing in dark colours', () => {
  test.each(onePageOfEachKind())('on /%s', async (path) => {
    const { page, close } = await openTab(site.chromium.browser, {
      serviceWorkers: 'block',
      colorScheme: 'dark',
      bypassCSP: true,
    });
    await page.goto(site.server.address + path);
    await unfold(page);
    expect(await violations(page)).toEqual([]);
    await close();
  });
});
