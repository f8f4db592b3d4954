import { readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { writeOfflinePacks } from '../../src/offline/build/index.ts';
import { type CuttingProxy, cuttingProxy } from './cutting-proxy.ts';
import {
  launch,
  PHONE,
  readManifest,
  serveFolder,
  type TestBrowser,
  waitUntilSaved,
} from './harness.ts';
import { makeSmallSite, type SmallSite } from './small-site.ts';

let chromium: TestBrowser;
let site: SmallSite;
let folder: string;
let server: Awaited<ReturnType<typeof serveFolder>>;
let proxy: CuttingProxy;
let context: BrowserContext;

beforeAll(async () => {
  [chromium, site] = await Promise.all([launch(), makeSmallSite()]);
});
afterAll(() => Promise.all([chromium.close(), site.remove()]));

/** Each test has a copy of the site, a connection that can be cut, and a phone that is new to it. */
beforeEach(async () => {
  folder = await site.copy();
  server = await serveFolder(folder);
  proxy = await cuttingProxy(server.address);
  context = await chromium.browser.newContext({ viewport: PHONE });
});
afterEach(async () => {
  await context.close();
  await proxy.stop();
  await server.stop();
  await rm(folder, { recursive: true });
});

/** Makes the site another edition: its name stands on every page and in what search loads. */
async function publish(edition: string, date: string): Promise<void> {
  for (const path of readManifest(folder).packs.flatMap(({ files }) => files)) {
    if (!path.endsWith('.html')) continue;
    const html = await readFile(join(folder, path), 'utf8');
    await writeFile(join(folder, path), html.replace(/<body /, `<body data-edition="${edition}" `));
  }
  const names = join(folder, 'search/names.json');
  const vocabulary = JSON.parse(await readFile(names, 'utf8'));
  await writeFile(names, JSON.stringify({ ...vocabulary, edition }));
  await writeOfflinePacks(folder, { version: edition, date });
}

async function visit(path = ''): Promise<Page> {
  const page = await context.newPage();
  await page.goto(proxy.address + path);
  return page;
}
const edition = (page: Page) => page.evaluate(() => document.body.dataset.edition ?? 'first');
const editionOfSearch = (page: Page) =>
  page.evaluate(async () => {
    const answer = await fetch('/search/names.json?ts=1');
    return ((await answer.json()) as { edition?: string }).edition ?? 'first';
  });
const checkNow = (page: Page) => page.locator('button', { hasText: 'Check for a newer' }).click();
const offer = (page: Page) => page.locator('#offline-offer', { hasText: 'is ready' });

describe('two pages open while a version is taken up in one of them', () => {
  test('each stays of one version, in all it asks for', async () => {
    const one = await visit();
    await waitUntilSaved(one);
    const two = await visit('about/');
    await waitUntilSaved(two);
    await publish('second', '2030-01-02');
    await checkNow(one);
    await offer(one).waitFor();
    await offer(two).waitFor();
    expect([await editionOfSearch(one), await editionOfSearch(two)]).toEqual(['first', 'first']);

    await offer(one).locator('button').click();
    await one.waitForFunction(() => document.body.dataset.edition === 'second');
    expect(await editionOfSearch(one)).toBe('second');
    expect([await edition(two), await editionOfSearch(two)]).toEqual(['first', 'first']);

    // The other page is offered the same, and takes it up when its reader says so.
    await offer(two).locator('button').click();
    await two.waitForFunction(() => document.body.dataset.edition === 'second');
    expect(await editionOfSearch(two)).toBe('second');
  });
});

describe('a version that nobody took up', () => {
  test('is not forced on a reader who closes all pages and comes back, but still offered', async () => {
    const page = await visit();
    await waitUntilSaved(page);
    await publish('second', '2030-01-02');
    await checkNow(page);
    await offer(page).waitFor();
    await page.close();

    const again = await visit('about/');
    await offer(again).waitFor();
    expect([await edition(again), await editionOfSearch(again)]).toEqual(['first', 'first']);
    const third = await visit();
    expect(await edition(third)).toBe('first');
    await offer(again).locator('button').click();
    await again.waitForFunction(() => document.body.dataset.edition === 'second');
    expect(again.url()).toBe(`${proxy.address}about/`);
  });

  test('gives way to the next one', async () => {
    const page = await visit();
    await waitUntilSaved(page);
    await publish('second', '2030-01-02');
    await checkNow(page);
    await offer(page).filter({ hasText: '2 Jan 2030' }).waitFor();
    await publish('third', '2030-03-04');
    await checkNow(page);
    await offer(page).filter({ hasText: '4 Mar 2030' }).waitFor();
    await offer(page).locator('button').click();
    await page.waitForFunction(() => document.body.dataset.edition !== undefined);
    expect([await edition(page), await editionOfSearch(page)]).toEqual(['third', 'third']);
  });
});

describe('saving that is cut in the middle of a pack', () => {
  test('of the first version goes on where it was', async () => {
    const [whole, cut] = readManifest(folder).packs.map(({ url }) => url);
    proxy.cut = new RegExp(`/${cut}$`);
    const page = await visit();
    await page
      .locator('#offline-status', { hasText: 'it goes on when there is a signal' })
      .waitFor();
    expect(proxy.asked).toContain(`/${whole}`);

    proxy.cut = null;
    proxy.asked.length = 0;
    await page.evaluate(() => dispatchEvent(new Event('online')));
    await waitUntilSaved(page);
    const packs = proxy.asked.filter((path) => path.endsWith('.pack'));
    expect(packs).toEqual([`/${cut}`]);
    await proxy.stop();
    expect((await page.goto(`${proxy.address}about/`))?.status()).toBe(200);
  });

  test('of a newer version leaves the old one whole, offline too, and goes on', async () => {
    const page = await visit();
    await waitUntilSaved(page);
    await publish('second', '2030-01-02');
    const pages = readManifest(folder).packs.filter(({ url }) => url.includes('/pages-'));
    proxy.cut = new RegExp(`/${pages.at(-1)!.url}$`);
    await checkNow(page);
    const status = page.locator('#offline-status');
    await status.filter({ hasText: 'dated 2 Jan 2030 stopped' }).waitFor();
    expect(await offer(page).count()).toBe(0);
    await page.reload();
    expect([await edition(page), await editionOfSearch(page)]).toEqual(['first', 'first']);

    proxy.cut = null;
    proxy.asked.length = 0;
    await checkNow(page);
    await offer(page).waitFor();
    expect(proxy.asked.filter((path) => path.endsWith('.pack'))).toEqual([`/${pages.at(-1)!.url}`]);
    await proxy.stop();
    await offer(page).locator('button').click();
    await page.waitForFunction(() => document.body.dataset.edition === 'second');
  });
});
