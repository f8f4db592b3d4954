import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { violations } from './accessibility.ts';
import { openTab, PHONE } from './harness.ts';
import { SHORT_VISITS, siteInBrowser } from './site.ts';

const site = siteInBrowser(SHORT_VISITS);
const SYSTEM = 'heat-only-two-port';
const VISIT = `job/?system=${SYSTEM}&complaint=no-hot-water-heating-works`;
const SEQUENCE = `systems/${SYSTEM}/sequences/no-hot-water-heating-works/`;
/** The same visit, begun on the page of the published sequence. */
const WALK = `${SEQUENCE}#new`;

/** Opens a page; one at which acts are asked, at its first act. */
async function openAt(page: Page, path: string): Promise<void> {
  await page.goto(site.server.address + path);
  if (path === VISIT) await page.click('text=It worked until now');
  if (path === VISIT || path === WALK) await page.waitForSelector('.panel[data-test]');
}

/** Moves on by key until what has the focus says so; fails where the keys lead round in a circle. */
async function tabTo(page: Page, words: RegExp): Promise<void> {
  for (let i = 0; i < 80; i++) {
    await page.keyboard.press('Tab');
    const said = await page.evaluate(() => document.activeElement?.textContent ?? '');
    if (words.test(said.trim())) return;
  }
  throw new Error(`no key leads to ${words}`);
}

test('a visit by the keyboard alone, from the complaint to the record', async () => {
  const { page, complaints, close } = await openTab(site.chromium.browser, { viewport: PHONE });
  await page.goto(`${site.server.address}job/#new`);
  await page.waitForSelector('.answer-key');
  await tabTo(page, /^No hot water, heating is fine$/);
  await page.keyboard.press('Enter');
  await page.waitForSelector('.asked-one');
  await tabTo(page, /^It worked until now$/);
  await page.keyboard.press('Enter');
  await page.waitForSelector('.choose-system');
  await tabTo(page, /^By its name/);
  await page.keyboard.press('Enter');
  await tabTo(page, /^Heat-only boiler with pump overrun, two-port valves and unvented/);
  await page.keyboard.press('Enter');
  // The hot-water channel is off: one look tells, and nobody opens anything.
  await page.waitForSelector('.panel[data-test]');
  for (let acts = 0; acts < 4 && !(await page.locator('.panel.found').count()); acts++) {
    const test = await page.locator('.panel').getAttribute('data-test');
    const off = /hot water lamp/.test(test!);
    const keys = await page.locator('.keys-look .answer-key').allTextContents();
    await tabTo(page, new RegExp(`^${keys[off ? 1 : 0]!.replace(/[()]/g, '.')}$`));
    await page.keyboard.press('Enter');
    await page.waitForFunction(
      (before) =>
        document.querySelector('.panel.found') ||
        document.querySelector('.panel')?.getAttribute('data-test') !== before,
      test,
    );
  }
  await page.waitForSelector('.panel.found');
  await tabTo(page, /go on to proving$/);
  await page.keyboard.press('Enter');
  await page.waitForSelector('#record-title');
  expect(complaints).toEqual({ console: [], foreign: [] });
  await close();
});

const PAGES = [
  '',
  'symptoms/',
  'symptoms/no-heating-hot-water-works/',
  `systems/${SYSTEM}/`,
  `systems/${SYSTEM}/readings/`,
  `systems/${SYSTEM}/wiring/`,
  SEQUENCE,
  'search/?q=no+hot+water',
  VISIT,
  WALK,
];

describe('with letters twice as large', () => {
  test.each(PAGES)('nothing is wider than the phone: /%s', async (path) => {
    const { page, close } = await openTab(site.chromium.browser, {
      viewport: PHONE,
      serviceWorkers: 'block',
      bypassCSP: true,
    });
    await openAt(page, path);
    await page.addStyleTag({ content: ':root { font-size: 200% }' });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
      PHONE.width,
    );
    await close();
  });
});

/** Height that the head of a page has on a phone at most, px: its keys, and a little air. */
const HEAD = 64;

test.each(PAGES)('with letters twice as large the head stays one line: /%s', async (path) => {
  const { page, close } = await openTab(site.chromium.browser, {
    viewport: PHONE,
    serviceWorkers: 'block',
    bypassCSP: true,
  });
  await openAt(page, path);
  await page.addStyleTag({ content: ':root { font-size: 200% }' });
  const head = (await page.locator('.site-header').boundingBox())!;
  expect(head.height).toBeLessThanOrEqual(HEAD);
  // Nothing in it is cut off, and a finger still finds its links.
  for (const link of await page.locator('.site-header > a').all()) {
    const box = (await link.boundingBox())!;
    expect(box.x + box.width).toBeLessThanOrEqual(PHONE.width);
    expect(box.height).toBeGreaterThanOrEqual(48);
  }
  const title = page.locator('main h1').first();
  const size = await title.evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize));
  expect(size).toBeGreaterThan(32);
  await close();
});

/** One page of each kind of key. */
const KEYS = PAGES.filter((path) => !/wiring|search|^symptoms\/$/.test(path));

describe('in forced colours', () => {
  test.each(KEYS)('what is chosen and what is an act can be told apart: /%s', async (path) => {
    const { page, close } = await openTab(site.chromium.browser, {
      viewport: PHONE,
      serviceWorkers: 'block',
      forcedColors: 'active',
      reducedMotion: 'reduce',
    });
    await openAt(page, path);
    // The browser chooses the colours here: of contrast alone axe cannot judge.
    const found = (await violations(page)).filter(([rule]) => rule !== 'color-contrast');
    expect(found).toEqual([]);
    // Colour being gone, every key still has an edge; the keys of a bar have the bar's rules.
    const bare = await page
      .locator('main :is(button, .way-on, .main-act, .answer-key):visible')
      .evaluateAll((keys) =>
        keys
          .filter((key) => !key.closest('.job-tabs, .page-bar'))
          .filter((key) => {
            const { borderTopStyle, textDecorationLine } = getComputedStyle(key);
            return borderTopStyle === 'none' && textDecorationLine === 'none';
          })
          .map(({ textContent, className }) => `${className}: ${textContent}`),
      );
    expect(bare).toEqual([]);
    await close();
  });
});
