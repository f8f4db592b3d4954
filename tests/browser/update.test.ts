import { readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { writeOfflinePacks } from '../../src/offline/build/index.ts';
import { launch, openTab, serveFolder, type TestBrowser, waitUntilSaved } from './harness.ts';
import { beginJob } from './job-steps.ts';
import { makeSmallSite, type SmallSite } from './small-site.ts';
import { outOfView } from './thumb.ts';

let chromium: TestBrowser;
let small: SmallSite;
let folder: string;
const PAGE = 'procedures/safe-isolation/';
const MARK = 'A sentence that only the second version has.';

beforeAll(async () => {
  [chromium, small] = await Promise.all([launch(), makeSmallSite()]);
});
afterAll(() => Promise.all([chromium.close(), small.remove()]));

/** A copy of a site that can be made into its second version. */
async function copyOfSite() {
  folder = await small.copy();
  return {
    folder,
    async secondVersion() {
      const file = join(folder, PAGE, 'index.html');
      const html = await readFile(file, 'utf8');
      await writeFile(file, html.replace('</h1>', `</h1><p>${MARK}</p>`));
      await writeOfflinePacks(folder, { version: 'second00', date: '2030-01-02' });
    },
    forget: () => rm(folder, { recursive: true, force: true }),
  };
}

describe('a second version', () => {
  test('is never offered over the answers of a visit', async () => {
    const site = await copyOfSite();
    const server = await serveFolder(site.folder);
    const { page, close } = await openTab(chromium.browser, { hasTouch: true });
    await page.goto(`${server.address}job/?system=combi-two-wire`);
    await beginJob(page);
    await page.waitForSelector('.panel[data-test]');
    await waitUntilSaved(page);
    await site.secondVersion();
    await page.evaluate(() => scrollTo({ top: 0 }));
    // Pressed where it stands, by no scrolling: a page that is opened checks by itself.
    await page
      .locator('button', { hasText: 'Check for a newer version' })
      .evaluate((button: HTMLButtonElement) => button.click());
    await page.locator('#offline-offer', { hasText: 'is ready' }).waitFor({ state: 'visible' });
    expect(await page.evaluate(() => scrollY)).toBe(0);
    expect(await outOfView(page, '.panel button, .panel summary, .last-line button')).toEqual([]);
    await close();
    await server.stop();
    await site.forget();
  });

  test('is offered by one line, and taken up by one tap at the same place', async () => {
    const site = await copyOfSite();
    const server = await serveFolder(site.folder);
    const { page, close } = await openTab(chromium.browser);
    await page.goto(`${server.address}${PAGE}#step-3`);
    await waitUntilSaved(page);
    await page.evaluate(() => localStorage.setItem('work in progress', 'kept'));
    await site.secondVersion();

    await page.locator('button', { hasText: 'Check for a newer version' }).click();
    const offer = page.locator('#offline-offer', { hasText: 'dated 2 Jan 2030 is ready' });
    await offer.waitFor({ state: 'visible' });
    // Until it is taken up everything stays the first version, other pages too.
    await page.reload();
    expect(await page.content()).not.toContain(MARK);

    await page.locator('#offline-offer button').click();
    await page.locator('p', { hasText: MARK }).waitFor();
    expect(page.url()).toBe(`${server.address}${PAGE}#step-3`);
    expect(await page.evaluate(() => localStorage.getItem('work in progress'))).toBe('kept');
    expect(await waitUntilSaved(page)).toContain('dated 2 Jan 2030');

    await server.stop();
    await page.goto(server.address + PAGE);
    expect(await page.content()).toContain(MARK);
    await close();
    await site.forget();
  });
});
