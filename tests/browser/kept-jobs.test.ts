import { readFileSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { JOB_VERSION } from '../../src/job/job-schema.ts';
import { SHAPES } from '../job/shapes.ts';
import { beginJob } from './job-steps.ts';
import { isSound, phone } from './phone.ts';
import { siteInBrowser } from './site.ts';

const site = siteInBrowser();
const shape = (wanted: string) => SHAPES.find(({ name }) => name === wanted)!.record;

const KEEP = '.unread-list button:text-is("Keep its file")';

interface Lay {
  readonly layout: number;
  readonly key: string;
  readonly records: readonly unknown[];
}

/** Lays jobs into a browser by hand, as a page of another time did. */
async function lay(context: BrowserContext, jobs: Lay): Promise<void> {
  const page = await context.newPage();
  await page.goto(`${site.server.address}version.json`);
  await page.evaluate(
    ({ layout, key, records }) =>
      new Promise<void>((resolve, reject) => {
        const request = indexedDB.open('proveline jobs', layout);
        request.onerror = () => reject(request.error);
        request.onupgradeneeded = () => {
          request.result.createObjectStore('jobs', { keyPath: key });
          request.result.createObjectStore('pictures');
        };
        request.onsuccess = () => {
          const transaction = request.result.transaction('jobs', 'readwrite');
          for (const record of records) transaction.objectStore('jobs').put(record);
          transaction.oncomplete = () => {
            request.result.close();
            resolve();
          };
        };
      }),
    jobs,
  );
  await page.close();
}

/** The file that a page hands over when something is tapped. */
async function fileOf(page: Page, tapped: string): Promise<{ name: string; text: string }> {
  const coming = page.waitForEvent('download');
  await page.tap(tapped);
  const file = await coming;
  return { name: file.suggestedFilename(), text: readFileSync(await file.path(), 'utf8') };
}

const tab = (colorScheme: 'light' | 'dark' = 'light') =>
  phone(site.chromium, { colorScheme, acceptDownloads: true, serviceWorkers: 'block' });

describe('jobs kept by an earlier version', () => {
  test('open where they were left; those that nobody can read stand beside them', async () => {
    const { context, said } = await tab();
    const old = shape('v1-as-found');
    const broken = { ...old, job: { ...old.job, id: 'broken', name: 'Mill', entries: 'gone' } };
    await lay(context, { layout: 1, key: 'job.id', records: [broken, old] });
    const page = await context.newPage();
    await page.goto(`${site.server.address}job/`);
    await page.waitForSelector('.unread-list li');
    await isSound(page);
    expect(await page.locator('.job-list:not(.unread-list) strong').allTextContents()).toEqual([
      'No heat',
    ]);
    expect(await page.locator('.unread-list li').textContent()).toMatch(
      /^Mill Saved 3 Oct 2026.*This job is damaged and cannot be read by this version: at entries: .*Keep its file/,
    );
    const { name, text } = await fileOf(page, KEEP);
    expect(name).toBe('job-mill-2026-10-03.json');
    expect(JSON.parse(text)).toMatchObject({ proveline: 'job', version: 1, job: broken.job });
    await page.tap('text=Delete Mill');
    await page.tap('text=Delete it');
    await page.waitForSelector('.unread-list', { state: 'detached' });
    await page.tap('.job-link');
    // The reading half entered is taken up.
    await page.waitForSelector('.reading-form');
    await page.goto(`${site.server.address}job/#broken`);
    await page.waitForSelector('text=That job is not kept in this browser.');
    expect(said).toEqual([]);
    await context.close();
  });
});

describe('jobs kept by a newer version', () => {
  const newest = shape(`v${JOB_VERSION}`);
  const newer = {
    ...newest,
    id: 'newer',
    job: { ...newest.job, id: 'newer', version: JOB_VERSION + 1 },
  };

  test('in a shape not known are said to be newer, and left as they are', async () => {
    const { context, said } = await tab('dark');
    await lay(context, { layout: 2, key: 'id', records: [newer] });
    const page = await context.newPage();
    await page.goto(`${site.server.address}job/#newer`);
    await page.waitForSelector('text=That job cannot be read by these pages');
    await isSound(page);
    expect(await page.locator('.unread-list').textContent()).toMatch(
      /No heat.*saved by a newer version of these pages.*Load the newer version/,
    );
    const { text } = await fileOf(page, KEEP);
    expect(JSON.parse(text).job).toEqual(newer.job);
    expect(said).toEqual([]);
    await context.close();
  });

  test('in a database not known are listed with their files, and nothing is written', async () => {
    const { context, said } = await tab();
    await lay(context, { layout: 9, key: 'id', records: [newer] });
    const page = await context.newPage();
    await page.goto(`${site.server.address}job/`);
    await page.waitForSelector('.unread-list li');
    await isSound(page);
    expect(await page.locator('#job > .caution').textContent()).toMatch(
      /saved by a newer version of these pages, and nothing is written over them/,
    );
    expect(await page.locator('text=Delete No heat').count()).toBe(0);
    const { text } = await fileOf(page, KEEP);
    expect(JSON.parse(text).job).toEqual(newer.job);
    expect(said).toEqual([]);
    await context.close();
  });

  test('coming up in another tab have the open page save, close and say so', async () => {
    const { context, said } = await tab();
    const page = await context.newPage();
    await page.goto(`${site.server.address}job/?system=combi-two-wire`);
    await beginJob(page);
    await page.tap('.job-tabs >> text=Record');
    await page.fill('#job-name-now', 'Hall');
    const other = await context.newPage();
    await other.goto(`${site.server.address}version.json`);
    const kept = await other.evaluate(
      () =>
        new Promise<unknown[]>((resolve) => {
          const request = indexedDB.open('proveline jobs', 9);
          request.onsuccess = () => {
            const jobs = request.result.transaction('jobs').objectStore('jobs').getAll();
            jobs.onsuccess = () => resolve(jobs.result);
          };
        }),
    );
    expect(kept).toMatchObject([{ job: { name: 'Hall' } }]);
    await page.waitForSelector('text=A newer version of these pages is open in another tab');
    await isSound(page);
    expect(said).toEqual([]);
    await context.close();
  });
});

test.each([360, 1280])(
  'the place of the jobs does not move while it fills, %i wide',
  async (width) => {
    const context = await site.chromium.browser.newContext({
      viewport: { width, height: 740 },
      serviceWorkers: 'block',
    });
    await context.addInitScript(() => {
      let shift = 0;
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries())
          shift += (entry as PerformanceEntry & { value: number }).value;
        document.documentElement.dataset.shift = String(shift);
      }).observe({ type: 'layout-shift', buffered: true });
    });
    for (const path of ['job/', 'job/#new', 'systems/combi-two-wire/as-found/']) {
      const page = await context.newPage();
      await page.goto(site.server.address + path, { waitUntil: 'networkidle' });
      await page.waitForSelector('.island > :not(.said):not(.without-script)');
      const shift = await page.evaluate(() => Number(document.documentElement.dataset.shift ?? 0));
      expect([path, shift <= 0.02]).toEqual([path, true]);
      await page.close();
    }
    await context.close();
  },
);
