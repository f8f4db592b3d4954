import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launch, openTab, serveFolder, type TestBrowser, waitUntilSaved } from './harness.ts';

let chromium: TestBrowser;
let tab: Awaited<ReturnType<typeof openTab>>;
let site: string;

/** One visit, then no server any more: everything below is offline. */
beforeAll(async () => {
  chromium = await launch();
  const server = await serveFolder();
  site = server.address;
  tab = await openTab(chromium.browser);
  await tab.page.goto(site);
  await waitUntilSaved(tab.page);
  await server.stop();
});
afterAll(() => chromium.close());

/** Types into the home page's field and waits for a result with the text at an address. */
async function searchFor(query: string, expected: RegExp, address: string): Promise<void> {
  const { page } = tab;
  await page.goto(site);
  await page.locator('input[name="q"]').fill(query);
  const hit = page.locator(`.search-panel a.result[href*="${address}"]`, { hasText: expected });
  await hit.first().waitFor({ state: 'visible' });
}

describe('offline search finds', () => {
  test.each([
    ['a terminal name', 'call feed', /call feed/, '#terminal-call-feed'],
    ['a terminal of an item', 'E1.call feed', /call feed/i, 'systems/combi'],
    ['a two-letter abbreviation', 'SL', /Switched live/, 'glossary/switched-live/'],
    ['a synonym', 'FCU', /fused spur/i, 'devices/fused-connection-unit/'],
    ['a system', 'mid-position', /mid-position/i, 'systems/heat-only-mid-position/'],
    ['a typing error', 'thermastat', /thermostat/i, 'thermostat'],
    [
      'what the customer says',
      'stone cold',
      /No heating, hot water works/,
      'symptoms/no-heating-hot-water-works/',
    ],
    [
      'what an engineer types',
      'mid posi valve stuck',
      /valve does not open/,
      'valve-does-not-open/',
    ],
    ['a reading', '90v induced', /Induced voltage/, 'glossary/induced-voltage/'],
  ])('%s: %s', async (_, query, text, address) => {
    await searchFor(query, text, address);
  });

  test('nothing for a word that no entry holds, and says so with a way on', async () => {
    const { page } = tab;
    await page.goto(site);
    await page.locator('input[name="q"]').fill('xylophone');
    await page.locator('.search-said', { hasText: 'Nothing for “xylophone”.' }).waitFor();
    await page
      .locator('.search-panel a[href$="#recognise"]', { hasText: 'what is in front of you?' })
      .waitFor();
  });

  test('on the search page, narrowed by a facet', async () => {
    const { page } = tab;
    await page.goto(`${site}search/?q=condensate`);
    await page.locator('#search-results a').first().waitFor();
    const before = await page.locator('#search-results a').count();
    await page.locator('#search-facets > summary').click();
    await page
      .locator('#search-facets label', { hasText: /^\s*System/ })
      .first()
      .click();
    await page.waitForFunction(
      (n) => document.querySelectorAll('#search-results a').length < n,
      before,
    );
    const kinds = await page.locator('#search-results .result-kind').allTextContents();
    expect(kinds.length).toBeGreaterThan(0);
    for (const kind of kinds) expect(kind).toMatch(/^System/);
  });

  test('by keyboard: / goes to the field, arrow and Enter open the first result', async () => {
    const { page } = tab;
    await page.goto(`${site}about/`);
    await page.keyboard.press('/');
    await page.keyboard.type('back-feed');
    await page
      .locator('.search-panel a.result', { hasText: /back-?feed/i })
      .first()
      .waitFor();
    // On a phone the list stands over the field, its first result lowest.
    await page.keyboard.press('ArrowUp');
    const focused = await page.evaluate(() => document.activeElement?.classList.contains('result'));
    expect(focused).toBe(true);
    await page.keyboard.press('Enter');
    await page.waitForURL(/back-feed/);
  });

  test('what was searched for before', async () => {
    const { page } = tab;
    await page.goto(site);
    await page.locator('input[name="q"]').focus();
    await page.locator('.search-panel', { hasText: 'Recent searches' }).waitFor();
    await page.locator('.search-panel a', { hasText: 'back-feed' }).waitFor();
  });
});
