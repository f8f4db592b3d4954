import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launch, type TestBrowser } from '../browser/harness.ts';
import { answerWith, beginJob, openSoFar, pick, read, see, turnTo } from '../browser/job-steps.ts';
import { isSound, offlinePhone } from '../browser/phone.ts';

const SYSTEM = 'systems/heat-only-condensate-pump/';
/** What is wrong in this house, as the page says it. */
const FAULT = 'Heating valve Q2: end switch slipped or burnt, does not close';

let chromium: TestBrowser;
let tab: Awaited<ReturnType<typeof offlinePhone>>;
let page: Page;
let site: string;

/** One visit with a signal; everything after it without. */
beforeAll(async () => {
  chromium = await launch();
  tab = await offlinePhone(chromium, { colorScheme: 'light' });
  ({ page, site } = tab);
  expect(tab.saved).toMatch(/^Saved for offline: \d+ pages/);
});
afterAll(() => chromium.close());

describe('an engineer with a phone and no signal', () => {
  test('finds the system', async () => {
    await page.goto(site);
    await isSound(page);
    await page.fill('input[name="q"]', 'heat only boiler condensate pump');
    await page.locator(`.search-panel a.result[href*="${SYSTEM}"]`).first().tap();
    await page.waitForURL(new RegExp(SYSTEM));
    expect(await page.locator('h1').textContent()).toMatch(/condensate/i);
  });

  test('reads what each terminal should show, in another mode too', async () => {
    const way = (name: string) => page.locator('.hub-ways a', { hasText: name }).tap();
    await way('Wiring');
    await page.waitForURL(/\/wiring\/$/);
    expect(await page.locator('#wiring tbody tr').count()).toBeGreaterThan(10);
    await page.goBack();
    await way('Diagram');
    await page.waitForURL(/\/diagram\/$/);
    expect(await page.locator('#diagram svg path').count()).toBeGreaterThan(20);
    await page.goBack();
    await way('Readings');
    await page.waitForURL(/\/readings\/$/);
    const readings = () => page.locator('#readings').allInnerTexts();
    const standby = await readings();
    await page.locator('.page-bar button', { hasText: 'Mode' }).tap();
    await page.locator('label:has(#mode-isolated)').tap();
    expect(await readings()).not.toEqual(standby);
  });

  test('goes from what is seen and read to the cause', async () => {
    await page.locator('.up a').tap();
    await page.tap('text=Find the fault');
    await beginJob(page);
    await page.waitForSelector('.panel[data-test]');
    await turnTo(page, 'Seen');
    await see(page, 'Heating only', 'Boiler display lit');
    await see(page, 'Heating only', 'Boiler not firing');
    await see(page, 'Heating only', 'Programmer shows heating on');
    await see(page, 'Heating only', 'Valve lever slack, valve open');
    await turnTo(page, 'Next');
    await page.waitForSelector('.panel h2');
    await turnTo(page, 'Readings');
    await page.tap('text=Take a reading');
    await pick(page, 'X1', '7');
    // No live reading without its caution.
    expect(await page.locator('.safety').textContent()).toMatch(
      /Isolate, the .* off, prove dead.*competent in live testing.*GS38/,
    );
    expect(await page.locator('.answer-key').first().isDisabled()).toBe(true);
    await answerWith(page, 'no volts');
    await read(page, 'X1', '4', 'live');
    await read(page, 'E1', 'SL', 'no volts');
    await openSoFar(page);
    const first = page.locator('.cause').first();
    await first.locator('summary', { hasText: FAULT }).waitFor();
    expect(await first.textContent()).toMatch(/Because .*no volts/);
    await isSound(page);
  });

  test('and finds the job as it was after the tab was killed', async () => {
    const address = page.url();
    await page.close();
    page = await tab.context.newPage();
    await page.goto(address);
    await turnTo(page, 'Next');
    await openSoFar(page);
    await page.locator('.cause').first().locator('summary', { hasText: FAULT }).waitFor();
    expect(tab.said).toEqual([]);
  });
});
