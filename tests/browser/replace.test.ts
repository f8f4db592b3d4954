import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { openTab, serveFolder, waitUntilSaved } from './harness.ts';
import { siteInBrowser } from './site.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const SYSTEM = 'systems/combi-two-wire/';
const SHEET = `${SYSTEM}replace/b1-wireless-receiver-mains-switched/`;
const NEVER = 'systems/combi-volt-free/replace/b1-wireless-receiver-mains-switched/';

const site = siteInBrowser();

/** Nothing that axe-core finds, and nothing wider than the screen. */
async function isSound(page: Page): Promise<void> {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate<{
    violations: { id: string; nodes: { target: unknown[] }[] }[];
  }>('axe.run(document, { resultTypes: ["violations"] })');
  expect(violations.map(({ id, nodes }) => [id, nodes.slice(0, 3).map((n) => n.target)])).toEqual(
    [],
  );
  expect(
    await page.evaluate(
      () => document.documentElement.scrollWidth <= document.documentElement.clientWidth,
    ),
  ).toBe(true);
}

/** The row of a core, its cells as they stand. */
const rowOf = (page: Page, core: string) => page.locator(`[data-core="${core}"]`).textContent();

describe('a replacement at 360 px, with no signal', () => {
  test('is found from the system, takes the marks, and shows them where the cores go', async () => {
    const own = await serveFolder();
    const { page, complaints, close } = await openTab(site.chromium.browser, {
      colorScheme: 'dark',
      hasTouch: true,
      bypassCSP: true,
    });
    await page.goto(own.address + SYSTEM);
    await waitUntilSaved(page);
    await own.stop();
    await page.locator('.hub a', { hasText: 'Replace a device' }).tap();
    await page.waitForURL(/replace\/$/);
    await isSound(page);
    await page
      .locator('section:has(#item-B1) a', { hasText: 'Wireless receiver, mains-switched' })
      .tap();
    await page.waitForURL(/b1-wireless-receiver-mains-switched\/$/);
    expect(await page.locator('.comes-to').textContent()).toMatch(
      /three cores needed here, two there/,
    );
    expect(await page.locator('#before + .steps').textContent()).toMatch(
      /Isolate, lock off and prove dead.*Photograph the terminals/s,
    );

    await page.locator('.markings summary').tap();
    await page.locator('[name="old COM"]').fill('A1');
    await page.locator('[name="new call out"]').fill('3 <b>');
    await isSound(page);
    await expect.poll(() => rowOf(page, 'W3.BN')).toMatch(/COM\s+A1/);
    expect(await rowOf(page, 'W3.BK')).toMatch(/NO\s[\s\S]*SL out\s+3 <b>/);
    expect(await page.locator('.proving').textContent()).toContain('3 <b>');

    await page.reload();
    expect(await page.locator('[name="old COM"]').inputValue()).toBe('A1');
    await expect.poll(() => rowOf(page, 'W3.BN')).toMatch(/COM\s+A1/);
    expect(page.url()).not.toMatch(/A1|%3Cb/);
    const signal = (line: string) => !/fetching the script|ERR_CONNECTION_REFUSED/.test(line);
    expect([complaints.console.filter(signal), complaints.foreign]).toEqual([[], []]);
    await close();
  });

  test('prints as a sheet with a place for each mark, and without what is typed into', async () => {
    const { page, close } = await openTab(site.chromium.browser, { serviceWorkers: 'block' });
    await page.goto(site.server.address + SHEET);
    await page.emulateMedia({ media: 'print' });
    for (const part of ['.markings', '.site-header', '.search', '.copy-button'])
      expect([part, await page.locator(part).filter({ visible: true }).count()]).toEqual([part, 0]);
    const blank = await page
      .locator('[data-core="W3.BN"] .printed')
      .first()
      .evaluate((mark) => getComputedStyle(mark, '::after').content);
    expect(blank).toContain('____');
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)?.length).toBeLessThanOrEqual(2);
    await close();
  });

  test('is whole without script', async () => {
    const { page, close } = await openTab(site.chromium.browser, { javaScriptEnabled: false });
    await page.goto(site.server.address + SHEET);
    expect(await page.locator('.core-steps tbody tr').count()).toBe(4);
    expect(await page.locator('.proving > li').count()).toBeGreaterThan(2);
    await close();
  });

  test('says no where it must, with no list of cores to follow', async () => {
    const { page, close } = await openTab(site.chromium.browser, {
      serviceWorkers: 'block',
      bypassCSP: true,
    });
    await page.goto(site.server.address + NEVER);
    expect(await page.locator('.comes-to').textContent()).toMatch(
      /Do not fit[\s\S]*Mains on extra-low/,
    );
    expect(await page.locator('.core-steps').count()).toBe(0);
    expect(await page.locator('#instead ~ .link-list a').count()).toBeGreaterThan(1);
    await isSound(page);
    await close();
  });

  test('what is in the van stands first, but nothing that does not fit', async () => {
    const { page, close } = await openTab(site.chromium.browser, { serviceWorkers: 'block' });
    const list = (system: string) =>
      page
        .goto(`${site.server.address}systems/${system}/replace/`)
        .then(() => page.locator('section:has(#item-B1) li').allInnerTexts());
    const before = await list('combi-two-wire');
    expect(before[0]).not.toMatch(/mains-switched/);
    await page.goto(`${site.server.address}devices/wireless-receiver-mains-switched/`);
    await page.locator('[data-act="van"]').click();
    await page.reload();
    expect(await page.locator('[data-act="van"] .on').isVisible()).toBe(true);
    const [first, ...others] = await list('combi-two-wire');
    expect(first).toMatch(/^Wireless receiver, mains-switched[\s\S]*In the van$/);
    expect(others.join()).not.toContain('In the van');
    expect((await list('combi-volt-free'))[0]).not.toMatch(/mains-switched/);
    await page.goto(`${site.server.address}devices/wireless-receiver-mains-switched/`);
    await page.locator('[data-act="van"]').click();
    expect(await list('combi-two-wire')).toEqual(before);
    await close();
  });
});
