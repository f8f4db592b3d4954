import { describe, expect, test } from 'vitest';
import { SECTIONS } from '../../src/components/system/parts.ts';
import { openTab, PHONE } from './harness.ts';
import { SHORT_VISITS, siteInBrowser } from './site.ts';

const SYSTEM = 'systems/heat-only-two-port/';
const site = siteInBrowser(SHORT_VISITS);
const open = async (path: string) => {
  const tab = await openTab(site.chromium.browser, {
    serviceWorkers: 'block',
    viewport: PHONE,
    hasTouch: true,
  });
  await tab.page.goto(site.server.address + path);
  return tab;
};

describe('the pages of a system on a phone', () => {
  test('the first screen holds the title, a caution and the four ways on', async () => {
    const { page, close } = await open(SYSTEM);
    const bar = (await page.locator('.page-bar').boundingBox())!.y;
    for (const seen of ['h1', '.hub .caution', '.hub-ways a >> nth=0', '.hub-ways a >> nth=3']) {
      const box = (await page.locator(seen).first().boundingBox())!;
      expect([seen, box.y >= 0 && box.y + box.height <= bar]).toEqual([seen, true]);
    }
    for (const way of await page.locator('.hub-ways a').all())
      expect((await way.boundingBox())!.height).toBeGreaterThanOrEqual(56);
    await close();
  });

  test('what a system is known by stands under its title', async () => {
    const { page, close } = await open(SYSTEM);
    const line = await page.locator('.hub .lede').textContent();
    expect(line).toBe(await page.locator('#facts .plain-list li').first().textContent());
    expect((await page.locator('#how p').first().textContent())!.length).toBeGreaterThan(40);
    await close();
  });

  test('what its sheet once held too is led to', async () => {
    const { page, close } = await open('');
    for (const [anchor, place] of [
      ['cables', `${SYSTEM}wiring/#cables`],
      ['live-path', `${SYSTEM}live-path/#live-path`],
      ['standards', `${SYSTEM}#standards`],
      ['wiring', `${SYSTEM}sheet/#wiring`],
    ]) {
      await page.goto('about:blank');
      await page.goto(`${site.server.address}${SYSTEM}sheet/#${anchor}`);
      await page.waitForURL(`${site.server.address}${place}`);
      expect(await page.locator(`#${anchor}`).count()).toBe(1);
    }
    await close();
  });

  test('a mode chosen on one holds on the others', async () => {
    const { page, close } = await open(SYSTEM);
    await page.locator('.page-bar button', { hasText: 'Mode' }).tap();
    await page.locator('label:has(#mode-isolated)').tap();
    for (const way of ['Readings', 'Diagram', 'Wiring']) {
      await page.locator('.hub-ways a', { hasText: way }).tap();
      await page.waitForURL(new RegExp(`${way.toLowerCase()}/`));
      expect(await page.locator('#mode-isolated').isChecked()).toBe(true);
      await page.locator('.up a').tap();
      await page.waitForURL((url) => url.pathname.endsWith(SYSTEM));
    }
    await close();
  });

  test('a page read only in part shows one mode and one instrument', async () => {
    const { page, close } = await open('');
    // As the line breaks off before the bar with the choices.
    await page.route('**/readings/', async (route) => {
      const whole = await (await route.fetch()).text();
      await route.fulfill({ body: whole.split('<aside')[0]!, contentType: 'text/html' });
    });
    await page.goto(`${site.server.address}${SYSTEM}readings/`);
    expect(await page.locator('[name="mode"]').count()).toBe(0);
    for (const several of ['.readings-table thead .c', '.instrument-line b > span'])
      expect(await page.locator(several).filter({ visible: true }).count()).toBe(1);
    await close();
  });

  test('every place that a system’s one page once had is led to', async () => {
    const { page, close } = await open('');
    const anchors = [...SECTIONS.map(([id]) => id), 'terminal-E1-L', 'cable-W1', 'item-E1'];
    for (const anchor of anchors) {
      await page.goto('about:blank');
      await page.goto(`${site.server.address}${SYSTEM}#${anchor}`);
      await page.locator(`#${anchor}`).waitFor();
      // It is to be seen: not folded away.
      expect([anchor, await page.locator(`#${anchor}`).isVisible()]).toEqual([anchor, true]);
    }
    await close();
  });

  test('cores compared stay ticked, and are cleared together', async () => {
    const { page, close, complaints } = await open(`${SYSTEM}wiring/`);
    const counted = () => page.locator('.ticked b').textContent();
    const boxes = page.locator('.core-tick');
    const all = await boxes.count();
    expect(all).toBeGreaterThan(20);
    await boxes.nth(2).tap();
    await boxes.nth(5).tap();
    expect(await counted()).toBe(`2 of ${all}`);
    await page.reload();
    expect(await counted()).toBe(`2 of ${all}`);
    expect(await boxes.nth(5).locator('input').isChecked()).toBe(true);
    await page.tap('text=Clear');
    await page.reload();
    expect(await counted()).toBe(`0 of ${all}`);
    expect(complaints.foreign).toEqual([]);
    await close();
  });

  test('ticks kept in no form that this version knows are none', async () => {
    const { page, close } = await open(`${SYSTEM}wiring/`);
    const key = (await page.locator('[data-ticks]').getAttribute('data-ticks'))!;
    for (const kept of ['{"a":1}', '[1,null]', 'not json']) {
      await page.evaluate(
        ([k, v]) => localStorage.setItem(`proveline.ticks.${k}`, v!),
        [key, kept],
      );
      await page.reload();
      expect(await page.locator('.ticked b').textContent()).toMatch(/^0 of \d+$/);
    }
    await close();
  });
});
