import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Download, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { gather } from '../../src/field/index.ts';
import { launch, onePageOfEachKind, openTab, serveFolder, type TestBrowser } from './harness.ts';
import { beginJob, turnTo } from './job-steps.ts';
import { isSound, offlinePhone } from './phone.ts';

let chromium: TestBrowser;
let folder: string;
beforeAll(async () => {
  chromium = await launch();
  folder = mkdtempSync(join(tmpdir(), 'from-the-field-'));
});
afterAll(async () => {
  await chromium.close();
  rmSync(folder, { recursive: true });
});

const KNOWN = { current: (path: string) => path, systems: [] };

/** Keeps what a page saved, in a folder of its own name, and gathers it. */
async function gathered(name: string, download: Download) {
  const into = join(folder, name);
  mkdirSync(into, { recursive: true });
  cpSync(await download.path(), join(into, download.suggestedFilename()));
  return gather(into, KNOWN);
}

const saved = async (page: Page, act: () => Promise<void>): Promise<Download> =>
  (await Promise.all([page.waitForEvent('download'), act()]))[0];

describe('a report, offline, at 360 px', () => {
  let tab: Awaited<ReturnType<typeof offlinePhone>>;
  let page: Page;
  beforeAll(async () => {
    tab = await offlinePhone(chromium, { acceptDownloads: true });
    ({ page } = tab);
  });
  afterAll(() => tab.context.close());

  test('is made from the page it is of, and read by the gatherer', async () => {
    await page.goto(`${tab.site}systems/combi-two-wire/readings/`);
    await page.tap('.site-footer >> text=This page is wrong');
    await page.waitForURL(/\/report\//);
    await page.locator('#report-version', { hasText: /^[0-9a-f]{8}, built/ }).waitFor();
    await page.tap('text=Save the file');
    expect(await page.locator('#report-said').textContent()).toMatch(/^Nothing is said yet/);
    const seen = 'Says live; I read <b>90 V</b> at the stat.';
    await page.fill('#report-seen', seen);
    await isSound(page);
    const { reports, refused } = await gathered(
      'report',
      await saved(page, () => page.tap('text=Save the file')),
    );
    expect(refused).toEqual([]);
    expect(reports.map(({ file }) => [file.page, file.seen, file.asFound])).toEqual([
      ['systems/combi-two-wire/readings/', seen, null],
    ]);
    expect(reports[0]!.file.build?.version).toMatch(/^[0-9a-f]{8}$/);
    expect(tab.said).toEqual([]);
  });

  test('wired otherwise leads to the marks, and they go with the report', async () => {
    await page.goto(`${tab.site}systems/combi-two-wire/wiring/`);
    await page.tap('.site-footer >> text=Wired otherwise here');
    await page.waitForURL(/\/as-found\//);
    const marks = 'as=Z2Fyc29u.x';
    await page.goto(`${tab.site}report/?page=systems/combi-two-wire/as-found/#${marks}`);
    await page.locator('#report-marks').waitFor();
    const { reports } = await gathered(
      'marks',
      await saved(page, () => page.tap('text=Save the file')),
    );
    expect(reports.map(({ file }) => [file.page, file.asFound])).toEqual([
      ['systems/combi-two-wire/as-found/', marks],
    ]);
  });

  test('an address that names no page makes no report, and runs nothing', async () => {
    for (const query of ['', '?page=https://elsewhere.example/', '?page=systems/<img src=x>/']) {
      await page.goto(`${tab.site}report/${query}`);
      await page.locator('#report-nowhere').waitFor();
      expect(await page.locator('#report-form').isHidden()).toBe(true);
    }
    expect(tab.said).toEqual([]);
  });

  test('a finished visit goes without anything of the customer’s that is not ticked', async () => {
    await page.goto(`${tab.site}job/?system=combi-two-wire`);
    await beginJob(page);
    await turnTo(page, 'Record');
    await page.fill('#repair-typed', 'New batteries');
    await page.tap('text=Enter this repair');
    await page.fill('#job-name-now', 'Mrs Sample');
    await page.fill('#job-place-now', '1 Invented Road');
    await page.fill('#job-notes', 'Dog bites.');
    expect(await page.locator('#hand-over-title').count()).toBe(0);
    await page.tap('text=Finish the job');
    await page.locator('#hand-over-title').waitFor();
    await page.tap('.hand-over >> text=Save the file');
    expect(await page.locator('.hand-over .said').textContent()).toBe('Say first what was wrong.');
    await page.selectOption('#hand-over-cause', 'setting');
    await isSound(page);
    const bare = await gathered(
      'visit',
      await saved(page, () => page.tap('.hand-over >> text=Save the file')),
    );
    expect(bare.refused).toEqual([]);
    const [{ file }] = bare.visits as [(typeof bare.visits)[number]];
    expect([file.system, file.cause, file.history, file.ticked]).toEqual([
      'combi-two-wire',
      'setting',
      'worked until now',
      {},
    ]);
    expect(JSON.stringify(file)).not.toMatch(/Sample|Invented|Dog|batteries/);
    await page.tap('.hand-over .tick:has-text("notes")');
    const ticked = await gathered(
      'ticked',
      await saved(page, () => page.tap('.hand-over >> text=Save the file')),
    );
    expect(ticked.visits[0]!.file.ticked).toEqual({ notes: 'Dog bites.' });
    expect(tab.said).toEqual([]);
  });
});

test('with storage refused a report is made all the same, and no script fails', async () => {
  const { address, stop } = await serveFolder();
  const { page, complaints, close } = await openTab(chromium.browser, {
    serviceWorkers: 'block',
    acceptDownloads: true,
  });
  await page.addInitScript(() => {
    for (const name of ['localStorage', 'sessionStorage', 'indexedDB', 'caches'])
      Object.defineProperty(window, name, {
        get() {
          throw new DOMException('Access is denied for this document.', 'SecurityError');
        },
      });
  });
  await page.goto(`${address}report/?page=devices/room-thermostat/`);
  await page.fill('#report-seen', 'The earth terminal is missing.');
  const { reports } = await gathered(
    'refused',
    await saved(page, () => page.click('text=Save the file')),
  );
  expect(reports[0]!.file.page).toBe('devices/room-thermostat/');
  const others = complaints.console.filter((line) => !/service ?worker/i.test(line));
  expect([others, complaints.foreign]).toEqual([[], []]);
  await close();
  await stop();
});

test('every page of an entry has the link, and no other page', async () => {
  const { address, stop } = await serveFolder();
  const { page, close } = await openTab(chromium.browser, { serviceWorkers: 'block' });
  for (const path of onePageOfEachKind()) {
    await page.goto(address + path);
    const link = page.locator('.site-footer a', { hasText: 'This page is wrong' });
    const isOfEntry = /^(systems|devices|symptoms|procedures|standards)\/[a-z0-9-]+\//.test(path);
    expect([path, await link.count()]).toEqual([path, isOfEntry ? 1 : 0]);
    if (isOfEntry)
      expect(new URL(await link.evaluate((one: HTMLAnchorElement) => one.href)).search).toBe(
        `?page=${path}`,
      );
  }
  await close();
  await stop();
});
