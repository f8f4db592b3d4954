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
    expect(await fold.locator('summary').textContent()).toContain(': 1 chosen');
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

/** How much of what stands on a page moved without being asked to, as browsers count it. */
const shiftOf = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<number>((resolve) => {
        let sum = 0;
        const add = (entries: PerformanceEntryList) => {
          for (const entry of entries as (PerformanceEntry & { value: number })[])
            sum += entry.value;
        };
        const watch = new PerformanceObserver((list) => add(list.getEntries()));
        watch.observe({ type: 'layout-shift', buffered: true });
        requestAnimationFrame(() => requestAnimationFrame(() => resolve(sum)));
      }),
  );

test.each([
  ['results', 'rads cold', /results\./],
  ['nothing and what is nearest', 'turquoise pump gasket perished', /Nearest:/],
  ['ten thousand letters', 'a'.repeat(10_000), /That is 10,000 letters/],
])('the search page at 360 px begins with %s, and nothing moves', async (_, query, said) => {
  const viewport = { width: 360, height: 740 };
  const options = { viewport, bypassCSP: true, serviceWorkers: 'block' } as const;
  const { page, close } = await openTab(site.chromium.browser, options);
  await page.goto(`${site.server.address}search/?q=${encodeURIComponent(query)}`);
  await page.locator('#search-status', { hasText: said }).waitFor();
  const first = (await page.locator('#search-results a').first().boundingBox())!;
  expect(first.y + first.height).toBeLessThan(viewport.height / 2);
  expect(await shiftOf(page)).toBeLessThanOrEqual(0.02);
  await close();
});
