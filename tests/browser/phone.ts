import type { BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { expect } from 'vitest';
import { violations } from './accessibility.ts';
import { isDriversWord, PHONE, serveFolder, type TestBrowser, waitUntilSaved } from './harness.ts';

/** A phone with a profile of its own, tapped with a finger, and what its pages complained of. */
export async function phone(
  { browser }: TestBrowser,
  options: BrowserContextOptions,
): Promise<{ context: BrowserContext; said: string[] }> {
  const context = await browser.newContext({
    viewport: PHONE,
    hasTouch: true,
    isMobile: true,
    ...options,
  });
  const said: string[] = [];
  context.on('console', (message) => {
    // With the server gone, the browser's own look for a newer worker finds nobody.
    if (isDriversWord(message.text())) return;
    if (/fetching the script|ERR_CONNECTION_REFUSED/.test(message.text())) return;
    if (['error', 'warning'].includes(message.type())) said.push(message.text());
  });
  context.on('weberror', (failure) => said.push(String(failure.error())));
  return { context, said };
}

/** Nothing that axe-core finds against a page as it stands, and nothing wider than the phone. */
export async function isSound(page: Page): Promise<void> {
  expect(await violations(page)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(PHONE.width);
}

/** A phone that has saved the site on one visit, and has no signal from then on. */
export async function offlinePhone(chromium: TestBrowser, options: BrowserContextOptions) {
  const tab = await phone(chromium, options);
  const { address, stop } = await serveFolder();
  const page = await tab.context.newPage();
  await page.goto(address);
  const saved = await waitUntilSaved(page);
  await stop();
  return { ...tab, page, site: address, saved };
}
