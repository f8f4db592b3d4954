import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { DESK, openTab, PHONE } from './harness.ts';
import { siteInBrowser } from './site.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
/** Least height and width of what is tapped with a glove, CSS pixels. */
const TAP = 48;

const site = siteInBrowser();

async function violations(page: Page): Promise<unknown[]> {
  await page.evaluate(AXE);
  return page.evaluate(
    'axe.run(document).then(({ violations }) => violations.map(({ id, nodes }) => [id, nodes[0].target]))',
  );
}
const smallest = (page: Page, links: string) =>
  page
    .locator(links)
    .evaluateAll((all) => Math.min(...all.map((link) => link.getBoundingClientRect().height)));

describe.each([
  ['a phone', 'light', PHONE],
  ['a desk', 'dark', DESK],
] as const)('on %s, %s,', (_, colorScheme, viewport) => {
  const open = () =>
    openTab(site.chromium.browser, {
      viewport,
      colorScheme,
      bypassCSP: true,
      serviceWorkers: 'block',
    });

  test('the results under the field', async () => {
    const { page, close } = await open();
    await page.goto(site.server.address);
    await page.locator('#q').fill('pump');
    await page.locator('.search-panel a.result').first().waitFor();
    await page.locator('form[role="search"] [role="status"]', { hasText: 'results.' }).waitFor({
      state: 'attached',
    });
    expect(await smallest(page, '.search-panel a')).toBeGreaterThanOrEqual(TAP);
    expect(await violations(page)).toEqual([]);

    // The first result is the one next to the field, whichever way the list grows.
    const field = (await page.locator('#q').boundingBox())!;
    const distances = await page
      .locator('.search-panel a.result')
      .evaluateAll(
        (links, y) => links.map((link) => Math.abs(link.getBoundingClientRect().y - y)),
        field.y,
      );
    expect(distances.indexOf(Math.min(...distances))).toBe(0);

    await page.keyboard.press('Escape');
    expect(await page.locator('.search-panel').isVisible()).toBe(false);
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('q');
    await close();
  });

  test('the search page with results and facets, narrowed to nothing and back', async () => {
    const { page, close } = await open();
    await page.goto(`${site.server.address}search/?q=pump&kind=system`);
    await page.locator('#search-status', { hasText: 'results.' }).waitFor();
    await page
      .locator('#search-facets input[value="system"]:checked')
      .first()
      .waitFor({ state: 'attached' });
    // Folded on a phone, beside the results on a desk.
    const fold = page.locator('#search-facets');
    const folded = (await fold.getAttribute('open')) === null;
    expect(folded).toBe(viewport.width < 960);
    if (folded) await fold.locator('summary').click();
    expect(
      await smallest(page, '#search-results a, #search-facets label, #search-facets summary'),
    ).toBeGreaterThanOrEqual(TAP);
    expect(await violations(page)).toEqual([]);

    await page.locator('#q').fill('xylophone');
    await page.locator('#search-status', { hasText: 'Nothing for “xylophone”.' }).waitFor();
    expect(new URL(page.url()).search).toBe('?q=xylophone&kind=system');
    await close();
  });
});
