import { describe, expect, test } from 'vitest';
import { DESK, openTab, PHONE } from './harness.ts';
import { siteInBrowser } from './site.ts';

const site = siteInBrowser();

/** Opens a page with nothing of the worker's on its console. */
const open = async (path: string, viewport = PHONE) => {
  const tab = await openTab(site.chromium.browser, { viewport, serviceWorkers: 'block' });
  await tab.page.goto(site.server.address + path);
  const complaints = () => tab.complaints.console.filter((line) => !/service ?worker/i.test(line));
  return { ...tab, complaints: complaints };
};

describe('the house standards', () => {
  test('are a matrix on a desk: a row a standard, a word for every system', async () => {
    const { page, close, complaints } = await open('standards/', DESK);
    const rows = page.locator('.matrix tbody tr');
    const systems = (await page.locator('.matrix thead th').count()) - 1;
    expect(await rows.count()).toBeGreaterThanOrEqual(18);
    expect(await page.locator('.matrix tbody td').count()).toBe(systems * (await rows.count()));
    const words = await page.locator('.matrix tbody td').allTextContents();
    expect([...new Set(words.map((word) => word.trim()))]).toEqual(
      expect.arrayContaining(['Met', 'Does not apply']),
    );
    expect(await page.locator('.matrix-list').isVisible()).toBe(false);
    expect(complaints()).toEqual([]);
    await close();
  });

  test('are a folded list on a phone, and the same matrix on paper', async () => {
    const { page, close } = await open('standards/');
    expect(await page.locator('.matrix').isVisible()).toBe(false);
    const first = page.locator('.matrix-list details').first();
    await first.locator('summary').click();
    expect(await first.locator('a').first().isVisible()).toBe(true);
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.matrix').isVisible()).toBe(true);
    expect(await page.locator('.matrix-list').isVisible()).toBe(false);
    await close();
  });

  test('lead from a system to a standard and back to the system’s verdict', async () => {
    // An address of this place opens what it lies folded in.
    const { page, close, complaints } = await open('systems/heat-only-two-port/#standards');
    const section = page.locator('#standards');
    expect(await section.textContent()).toMatch(/\d+ met/);
    await section.locator('summary').first().click();
    await section.locator('a', { hasText: 'cut-out' }).first().click();
    await page.waitForURL(/\/standards\/cut-out-shuts-the-valve\/#in-heat-only-two-port$/);
    expect(await page.locator(':target').textContent()).toMatch(/Met/);
    for (const heading of ['Why', 'What is checked', 'By system', 'Sources'])
      expect(await page.getByRole('heading', { name: heading }).count()).toBe(1);
    // A system that was called otherwise once stands in its row as every other.
    const starts = await page
      .locator('.verdicts > li > a')
      .evaluateAll((rows) => rows.map((row) => Math.round(row.getBoundingClientRect().left)));
    expect(starts.length).toBeGreaterThan(5);
    expect([...new Set(starts)]).toHaveLength(1);
    expect(complaints()).toEqual([]);
    await close();
  });

  test('are found by the trade’s words', async () => {
    const { page, close } = await open('search/?q=borrowed+neutral');
    const found = page.locator('main a[href*="standards/one-isolator/"]');
    await found.first().waitFor();
    expect(await found.count()).toBeGreaterThan(0);
    await close();
  });
});
