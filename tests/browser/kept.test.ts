import { createHash } from 'node:crypto';
import { readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { writeOfflinePacks } from '../../src/offline/build/index.ts';
import { contentType } from '../../src/offline/content-types.ts';
import { isPage } from '../../src/offline/manifest.ts';
import { encodePack } from '../../src/offline/pack.ts';
import { JOB_RESERVE } from '../../src/offline/room.ts';
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

/** Each test has a copy of the site, a connection it can watch, and a phone that is new to it. */
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

async function visit(path = ''): Promise<Page> {
  const page = await context.newPage();
  await page.goto(proxy.address + path);
  return page;
}
/** A visit after which the whole site is saved. */
async function saved(path = ''): Promise<Page> {
  const page = await visit(path);
  await waitUntilSaved(page);
  proxy.asked.length = 0;
  proxy.bytes = 0;
  return page;
}
const packsAsked = () => proxy.asked.filter((path) => path.endsWith('.pack'));
const status = (page: Page, text: string) =>
  page.locator('#offline-status', { hasText: text }).waitFor({ state: 'attached' });
const check = (page: Page) => page.locator('button', { hasText: 'Check for a newer' }).click();
const packOf = (path: string) =>
  readManifest(folder).packs.find(({ files }) => files.includes(path))!;

/** Addresses of the packs that the phone holds. */
const held = (page: Page): Promise<string[]> =>
  page.evaluate(async () => {
    const found: string[] = [];
    for (const name of await caches.keys())
      if (name.endsWith(' packs'))
        for (const { url } of await (await caches.open(name)).keys()) found.push(url);
    return found.map((url) => new URL(url).pathname.slice(1)).sort();
  });

/** Loses a pack on the phone, or what its bytes were. */
const spoil = (page: Page, pack: string, damage: 'lost' | 'cut short'): Promise<void> =>
  page.evaluate(
    async ([url, damage]) => {
      for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        const found = await cache.match(url!);
        if (!found) continue;
        if (damage === 'lost') await cache.delete(url!);
        else await cache.put(url!, new Response((await found.arrayBuffer()).slice(0, -40)));
      }
    },
    [proxy.address + pack, damage] as const,
  );

/** Another edition of the site: its name stands on every page. */
async function publish(edition: string, choiceFrom?: number): Promise<void> {
  for (const path of readManifest(folder).packs.flatMap(({ files }) => files)) {
    if (!path.endsWith('.html')) continue;
    const html = await readFile(join(folder, path), 'utf8');
    await writeFile(join(folder, path), html.replace(/<body /, `<body data-edition="${edition}" `));
  }
  const built = { version: edition, date: '2030-01-02' };
  await writeOfflinePacks(folder, built, { choiceFrom });
}

const ABOUT = 'about/index.html';

describe('what is held', () => {
  test('is what the footer tells, within a few per cent', async () => {
    const page = await saved();
    const bytes = await page.evaluate(async () => {
      let sum = 0;
      for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const request of await cache.keys())
          sum += (await (await cache.match(request))!.arrayBuffer()).byteLength;
      }
      return sum;
    });
    const told = readManifest(folder).bytes;
    expect(bytes / told).toBeGreaterThan(1);
    expect(bytes / told).toBeLessThan(1.06);
    expect(await waitUntilSaved(page)).toContain(`${(told / 1e6).toFixed(told < 1e6 ? 2 : 1)} MB`);
  });

  test('is the version that every page says it is of', async () => {
    const page = await saved('about/');
    const { version } = readManifest(folder);
    await page.locator('.built.told', { hasText: version }).first().waitFor();
    await proxy.stop();
    await page.goto(`${proxy.address}reviewed/`);
    await page.locator('.built.told', { hasText: version }).first().waitFor();
  });
});

describe('a lost pack', () => {
  test('comes back by itself when the next page opens, and nothing else is fetched', async () => {
    const page = await saved();
    const { url } = packOf(ABOUT);
    await spoil(page, url, 'lost');
    expect(await held(page)).not.toContain(url);
    await page.goto(`${proxy.address}reviewed/`);
    await expect.poll(() => held(page)).toContain(url);
    expect(packsAsked()).toEqual([`/${url}`]);
    await waitUntilSaved(page);
    await proxy.stop();
    expect((await page.goto(`${proxy.address}about/`))?.status()).toBe(200);
  });

  test('costs its own files and no more while there is no signal, and the footer says so', async () => {
    const page = await saved();
    const { url, pages, files } = packOf(ABOUT);
    await spoil(page, url, 'lost');
    await proxy.stop();
    const other = readManifest(folder)
      .packs.filter((pack) => pack.url !== url)
      .flatMap((pack) => pack.files.filter(isPage).slice(0, 1));
    // What answers is looked at; the next page need not wait until all of this one is drawn.
    const open = (path: string) => page.goto(proxy.address + path, { waitUntil: 'commit' });
    for (const path of other) expect([path, (await open(path))?.status()]).toEqual([path, 200]);
    await page.goto(proxy.address);
    expect(pages).toBeGreaterThan(0);
    await status(
      page,
      `Not all is saved: ${pages} of ${readManifest(folder).pages} pages are missing; they come back with a signal.`,
    );
    for (const path of files.filter(isPage)) {
      const gap = await page.goto(proxy.address + path);
      expect([path, gap?.status()]).toEqual([path, 503]);
      await page.locator('h1', { hasText: 'This page needs a signal' }).waitFor();
    }
  });

  test('cut short on the phone is found by a check, and mended', async () => {
    const page = await saved();
    const { url, bytes } = packOf(ABOUT);
    await spoil(page, url, 'cut short');
    await check(page);
    await expect.poll(packsAsked).toEqual([`/${url}`]);
    await waitUntilSaved(page);
    const length = await page.evaluate(async (address) => {
      for (const name of await caches.keys()) {
        const found = await (await caches.open(name)).match(address);
        if (found) return (await found.arrayBuffer()).byteLength;
      }
      return undefined;
    }, proxy.address + url);
    expect(length).toBe(bytes);
  });
});

describe('a phone without room', () => {
  /** Leaves so many bytes beside what the site takes now. */
  async function leave(page: Page, bytes: number): Promise<void> {
    const usage = await page.evaluate(async () => (await navigator.storage.estimate()).usage!);
    const cdp = await context.newCDPSession(page);
    await cdp.send('Storage.overrideQuotaForOrigin', {
      origin: new URL(proxy.address).origin,
      quotaSize: usage + bytes,
    });
  }

  test('keeps the old version whole and nothing of the new, and says what to do', async () => {
    const page = await saved();
    const before = await held(page);
    await publish('second');
    await leave(page, JOB_RESERVE + 10_000);
    await check(page);
    await status(page, 'has no room for the version dated 2 Jan 2030 beside your jobs');
    await status(page, 'Free some space, then check again.');
    await expect.poll(() => held(page)).toEqual(before);
    await proxy.stop();
    await page.goto(`${proxy.address}about/`);
    expect(await page.evaluate(() => document.body.dataset.edition)).toBeUndefined();
  });

  test('has the jobs’ room again once pages are stored', async () => {
    const page = await saved();
    expect(await page.evaluate(() => caches.keys())).toEqual([
      expect.stringMatching(/ (packs|state)$/),
      expect.stringMatching(/ (packs|state)$/),
    ]);
  });

  test('leaves the room for jobs untouched by the first saving too', async () => {
    const page = await context.newPage();
    const cdp = await context.newCDPSession(page);
    await cdp.send('Storage.overrideQuotaForOrigin', {
      origin: new URL(proxy.address).origin,
      quotaSize: JOB_RESERVE - 100_000,
    });
    await page.goto(proxy.address);
    await status(page, 'Not saved: this device has no room');
    expect(await held(page)).toEqual([]);
  });
});

describe('a phone that holds what an earlier worker kept', () => {
  /** The site as it was first published: packs whose files were stored one by one. */
  async function publishAsOnce(): Promise<void> {
    const paths = readManifest(folder)
      .packs.flatMap(({ files }) => files)
      .filter((path) => !path.startsWith('pagefind/'));
    const files = await Promise.all(
      paths.map(async (path) => ({
        path,
        type: contentType(path),
        body: new Uint8Array(await readFile(join(folder, path))),
      })),
    );
    const download = gzipSync(encodePack(files));
    const sha256 = createHash('sha256').update(download).digest('hex');
    const url = `offline/pages-${sha256.slice(0, 16)}.pack`;
    await writeFile(join(folder, url), download);
    const version = {
      id: 'first',
      version: 'first',
      date: '2026-11-25',
      pages: paths.filter(isPage).length,
      files: paths.length,
      bytes: download.length,
      packs: [{ url, bytes: download.length, sha256 }],
    };
    const worker = await readFile('tests/fixtures/offline/first-worker.txt', 'utf8');
    const script = `const SITE_VERSION=${JSON.stringify(version)};\n${worker}`;
    await writeFile(join(folder, 'sw.js'), script);
  }

  test('goes on with it until the new version is taken up, then drops it', async () => {
    const next = await readFile(join(folder, 'sw.js'));
    await publishAsOnce();
    const page = await saved('about/');
    const earlierCaches = () =>
      page.evaluate(async () =>
        (await caches.keys()).filter((name) => / pack [0-9a-f]/.test(name)),
      );
    expect(await earlierCaches()).toHaveLength(1);

    await writeFile(join(folder, 'sw.js'), next);
    await publish('second');
    await check(page);
    const offer = page.locator('#offline-offer', { hasText: 'dated 2 Jan 2030 is ready' });
    await offer.waitFor();
    // All pages closed: the new worker now serves what the earlier one kept.
    await page.close();
    const again = await visit('reviewed/');
    await again.locator('#offline-offer', { hasText: 'is ready' }).waitFor();
    expect(await again.evaluate(() => document.body.dataset.edition)).toBeUndefined();
    await again.locator('#offline-offer button').click();
    await again.waitForFunction(() => document.body.dataset.edition === 'second');
    await waitUntilSaved(again);
    await proxy.stop();
    await again.goto(`${proxy.address}about/`);
    expect(await again.evaluate(() => document.body.dataset.edition)).toBe('second');
    // A worker that has rested knows of no page but those that are open.
    const cdp = await context.newCDPSession(again);
    await cdp.send('ServiceWorker.enable');
    await cdp.send('ServiceWorker.stopAllWorkers');
    await again.goto(proxy.address);
    const left = () =>
      again.evaluate(async () =>
        (await caches.keys()).filter((name) => / pack [0-9a-f]/.test(name)),
      );
    await expect.poll(left).toEqual([]);
  });
});

describe('a site so large that systems are chosen', () => {
  test('gives up what is left out, keeps that system’s page, and takes it back', async () => {
    await publish('large', 0);
    const page = await saved('saved/');
    const deeper = readManifest(folder).packs.filter(({ system }) => system);
    const { system } = deeper[0]!;
    const own = deeper.filter((pack) => pack.system === system);
    const sequence = own.flatMap(({ files }) => files).find((path) => /\/sequences\//.test(path))!;
    const box = page.locator(`tr[data-system="${system}"] input`);
    await box.uncheck();
    await status(page, ' of ');
    const everything = readManifest(folder).packs.map(({ url }) => url);
    const rest = everything.filter((url) => !own.some((pack) => pack.url === url));
    await expect.poll(() => held(page)).toEqual(rest.toSorted());

    await context.setOffline(true);
    await proxy.stop();
    const tab = await context.newPage();
    expect((await tab.goto(`${proxy.address}systems/${system}/`))?.status()).toBe(200);
    expect((await tab.goto(proxy.address + sequence))?.status()).toBe(503);
    await tab.locator('p', { hasText: 'You chose not to keep this system' }).waitFor();
  });

  test('keeps to a choice while an older word of what is saved comes in', async () => {
    await publish('large', 0);
    const page = await saved('saved/');
    const boxes = page.locator('tr[data-system] input:enabled');
    await boxes.first().waitFor();
    const left = await page.evaluate(async () => {
      const { serviceWorker } = navigator;
      const told = new Promise<unknown>((resolve) =>
        serviceWorker.addEventListener('message', ({ data }) => resolve(data), { once: true }),
      );
      document.querySelector<HTMLElement>('#saved-check')!.click();
      const data = await told;
      const [first, second] = document.querySelectorAll<HTMLInputElement>('tr[data-system] input');
      first!.click();
      serviceWorker.dispatchEvent(new MessageEvent('message', { data }));
      second!.click();
      return [first!.checked, second!.checked];
    });
    expect(left).toEqual([false, false]);
    const lost = () =>
      boxes.evaluateAll((all) => all.filter((box) => !(box as HTMLInputElement).checked).length);
    // Both are left out, as the page says once it is opened anew.
    await status(page, ' of ');
    await expect
      .poll(async () => {
        await page.reload();
        await boxes.first().waitFor();
        return lost();
      })
      .toBe(2);
  });

  test('takes a system back when it is wanted again', async () => {
    await publish('large', 0);
    const page = await saved('saved/');
    const everything = readManifest(folder)
      .packs.map(({ url }) => url)
      .toSorted();
    const { system } = readManifest(folder).packs.find((pack) => pack.system)!;
    const box = page.locator(`tr[data-system="${system}"] input`);
    await box.uncheck();
    await expect.poll(async () => (await held(page)).length).toBeLessThan(everything.length);
    await box.check();
    await expect.poll(() => held(page)).toEqual(everything);
    await waitUntilSaved(page);
  });
});
