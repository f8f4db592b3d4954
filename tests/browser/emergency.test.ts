import { describe, expect, test } from 'vitest';
import { builtPage, openTab, pagesOf, readManifest, waitUntilSaved } from './harness.ts';
import { textOfPages } from './pdf-text.ts';
import { siteInBrowser } from './site.ts';

/**
 * Numbers of the United Kingdom, as consumer guides give them (seen), written here apart from the
 * site’s own list: gas escape, gas escape in Northern Ireland, ambulance, power cut, power cut in
 * Northern Ireland, Gas Safe registrations.
 */
const NUMBERS = [
  '0800 111 999',
  '0800 002 001',
  '999',
  '105',
  '03457 643 643',
  '0800 408 5500',
] as const;
const FOLDED = ['', 'symptoms/', ...pagesOf(readManifest()).filter((p) => /^symptoms\/./.test(p))];
const OPEN = 'procedures/safe-isolation/';
const site = siteInBrowser();

test('stands on the home page, with every symptom, and with the first step of isolating', () => {
  expect(FOLDED.length).toBeGreaterThan(25);
  const boxes = [OPEN, ...FOLDED].map((path) => ({
    path,
    boxes: builtPage(path).match(/<details class="emergency"[^>]*>/g) ?? [],
  }));
  expect(boxes.filter((one) => one.boxes.length !== 1)).toEqual([]);
  const isolating = builtPage(OPEN);
  expect(isolating.indexOf('class="emergency" open')).toBeGreaterThan(-1);
  // Nothing is touched in the first step; where gas is smelt, that nothing may be, is said before it.
  expect(isolating.indexOf('class="emergency"')).toBeLessThan(isolating.indexOf('id="step-2"'));
  const before = isolating.slice(0, isolating.indexOf('id="step-1"'));
  expect(before).toMatch(/Smell of gas\?.*Touch no switch.*href="tel:0800111999"/s);
  expect(FOLDED.filter((path) => builtPage(path).includes('class="emergency" open'))).toEqual([]);
});

describe('on a narrow phone with no signal', () => {
  test('is one line, opens to a tap, and every number can be rung', async () => {
    const { page, close } = await openTab(site.chromium.browser);
    await page.goto(site.server.address);
    await waitUntilSaved(page);
    await page.context().setOffline(true);
    for (const path of ['', 'symptoms/', 'symptoms/no-heating-no-hot-water/']) {
      await page.goto(site.server.address + path);
      const box = page.locator('.emergency');
      const folded = (await box.boundingBox())!;
      expect(folded.height).toBeLessThan(60);
      expect(folded.y + folded.height).toBeLessThan(500);
      await box.locator('summary').click();
      const links = box.locator('a:visible');
      expect(await links.allTextContents()).toEqual([...NUMBERS]);
      expect(await links.evaluateAll((all) => all.map((a) => a.getAttribute('href')))).toEqual(
        NUMBERS.map((number) => `tel:${number.replaceAll(' ', '')}`),
      );
      for (const link of await links.all())
        expect((await link.boundingBox())!.height).toBeGreaterThanOrEqual(44);
    }
    await close();
  });
});

test('of gas stands above the first act of isolating, and all of it is read there with no tap', async () => {
  const { page, close } = await openTab(site.chromium.browser, { serviceWorkers: 'block' });
  await page.goto(site.server.address + OPEN);
  const line = (await page.locator('.emergency-line').boundingBox())!;
  const act = (await page.locator('.steps .act').first().boundingBox())!;
  expect(line.y + line.height).toBeLessThan(act.y);
  expect(await page.locator('.emergency a:visible').allTextContents()).toEqual([...NUMBERS]);
  await close();
});

test('is read whole on paper though it is folded on the screen', async () => {
  const { page, close } = await openTab(site.chromium.browser, { serviceWorkers: 'block' });
  for (const path of [OPEN, ...FOLDED.slice(0, 3)]) {
    await page.goto(site.server.address + path);
    const paper = textOfPages(await page.pdf({ preferCSSPageSize: true })).join('');
    const bare = paper.replace(/\s+/g, '');
    expect(NUMBERS.filter((number) => !bare.includes(number.replaceAll(' ', '')))).toEqual([]);
  }
  await close();
});
