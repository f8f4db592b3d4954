import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  heightOf,
  launch,
  openTab,
  PHONE,
  serveFolder,
  type TestBrowser,
  waitUntilSaved,
} from './harness.ts';

let chromium: TestBrowser;
let server: Awaited<ReturnType<typeof serveFolder>>;
/** Text as it is rendered, so that what style hides does not count. */
const shown = (part: Locator): Promise<string> =>
  part.allInnerTexts().then((texts) => texts.join('\n'));
const SYSTEM = 'systems/heat-only-two-port/';

beforeAll(async () => {
  chromium = await launch();
  server = await serveFolder();
});
afterAll(async () => {
  await chromium.close();
  await server.stop();
});

describe('a browser without service workers', () => {
  test('shows every page online and says what is missing', async () => {
    const { page, complaints, close } = await openTab(chromium.browser);
    await page.addInitScript(() => {
      Object.defineProperty(Navigator.prototype, 'serviceWorker', { value: undefined });
    });
    await page.goto(server.address + SYSTEM);
    await page
      .locator('#offline-status', { hasText: 'cannot keep the pages; they need a signal' })
      .waitFor({ state: 'attached' });
    expect(await page.locator('h1').textContent()).toContain('Heat-only boiler');
    expect(complaints).toEqual({ console: [], foreign: [] });
    await close();
  });

  test('and one whose settings refuse them says so', async () => {
    const { page, complaints, close } = await openTab(chromium.browser);
    await page.addInitScript(() => {
      ServiceWorkerContainer.prototype.register = () =>
        Promise.reject(new DOMException('The operation is insecure.', 'SecurityError'));
    });
    await page.goto(server.address + SYSTEM);
    await page
      .locator('#offline-status', { hasText: 'does not keep the pages with its present settings' })
      .waitFor({ state: 'attached' });
    expect(await page.locator('h1').textContent()).toContain('Heat-only boiler');
    expect(complaints).toEqual({ console: [], foreign: [] });
    await close();
  });

  test('and one that keeps nothing at all still shows pages and searches', async () => {
    const { page, complaints, close } = await openTab(chromium.browser, {
      serviceWorkers: 'block',
    });
    await page.addInitScript(() => {
      for (const name of ['localStorage', 'sessionStorage', 'indexedDB', 'caches'])
        Object.defineProperty(window, name, {
          get() {
            throw new DOMException('Access is denied for this document.', 'SecurityError');
          },
        });
    });
    await page.goto(server.address);
    await page.locator('input[name="q"]').fill('back-feed');
    await page.locator('.search-panel a.result[href*="back-feed"]').first().click();
    await page.waitForURL(/back-feed/);
    await page.goto(server.address + SYSTEM);
    await page.locator('.page-bar button', { hasText: 'Mode' }).click();
    await page.locator('label:has(#mode-isolated)').click();
    expect(new URL(page.url()).searchParams.get('mode')).toBe('isolated');
    const others = complaints.console.filter((line) => !/service ?worker/i.test(line));
    expect([others, complaints.foreign]).toEqual([[], []]);
    await close();
  });
});

describe('without JavaScript', () => {
  test('a live path stands on its page, and the switches show another', async () => {
    const { page, close } = await openTab(chromium.browser, { javaScriptEnabled: false });
    await page.goto(`${server.address}${SYSTEM}live-path/`);
    const path = page.locator('#live-path');
    expect((await shown(path)).length).toBeGreaterThan(80);
    const standby = await shown(path);
    await page.locator('.page-bar button', { hasText: 'Mode' }).click();
    await page.locator('#mode-isolated').check();
    expect(await shown(path)).not.toBe(standby);
    await close();
  });

  test('a system on paper is complete and its switches work', async () => {
    const { page, close } = await openTab(chromium.browser, { javaScriptEnabled: false });
    await page.goto(`${server.address}${SYSTEM}sheet/`);
    for (const id of ['facts', 'cautions', 'diagram', 'wiring', 'readings', 'sequence', 'how']) {
      const section = page.locator(`#${id}`);
      expect([id, await section.count()]).toEqual([id, 1]);
      expect((await shown(section)).length).toBeGreaterThan(80);
    }
    expect(await page.locator('#diagram svg').count()).toBeGreaterThan(0);
    const live = () => shown(page.locator('#readings'));
    const standby = await live();
    await page.locator('.page-bar button', { hasText: 'Mode' }).click();
    await page.locator('#mode-isolated').check();
    const isolated = await live();
    expect(isolated).not.toBe(standby);
    await page.keyboard.press('Escape');
    await page.locator('.page-bar button', { hasText: 'Instrument' }).click();
    await page.locator('#instrument-multimeter').check();
    expect(await live()).not.toBe(isolated);
    await close();
  });

  test('search lists every entry by name', async () => {
    const { page, close } = await openTab(chromium.browser, { javaScriptEnabled: false });
    await page.goto(`${server.address}search/`);
    expect(await page.locator('main a').count()).toBeGreaterThan(60);
    await close();
  });
});

describe('an address without a page', () => {
  test('gets status 404, a search for its words, and the ways in, on one screen', async () => {
    const { page, close } = await openTab(chromium.browser, { viewport: PHONE });
    const response = await page.goto(`${server.address}systems/condensate-pmup/`);
    expect(response?.status()).toBe(404);
    expect(await page.locator('h1').textContent()).toBe('No page has this address');
    expect(await page.locator('input[name="q"]').inputValue()).toContain('condensate');
    const ways = await page
      .locator('main a')
      .evaluateAll((links) => links.map((link) => link.textContent));
    expect(ways).toEqual(['Home', 'Complaints', 'Systems', 'Devices', 'Procedures', 'Words']);
    expect(await heightOf(page)).toBeLessThanOrEqual(PHONE.height);
    await close();
  });

  test('offline too', async () => {
    const own = await serveFolder();
    const { page, close } = await openTab(chromium.browser);
    await page.goto(own.address);
    await waitUntilSaved(page);
    await own.stop();
    const response = await page.goto(`${own.address}symptoms/valve-swnigs/`);
    expect(response?.status()).toBe(404);
    expect(await page.locator('h1').textContent()).toBe('No page has this address');
    const field = page.locator('input[name="q"]');
    expect(await field.inputValue()).toBe('valve swnigs');
    await field.press('Enter');
    await page.waitForURL(/\/search\/\?q=valve/);
    await page.locator('#search-results a').first().waitFor();
    await close();
  });

  test('and may hold a stray per cent sign', async () => {
    const { page, complaints, close } = await openTab(chromium.browser, {
      serviceWorkers: 'block',
    });
    await page.goto(`${server.address}devices/room%thermostat/`);
    expect(await page.locator('input[name="q"]').inputValue()).toBe('room thermostat');
    const own = (line: string) => !/service ?worker|404 \(Not Found\)/i.test(line);
    expect(complaints.console.filter(own)).toEqual([]);
    await close();
  });
});
