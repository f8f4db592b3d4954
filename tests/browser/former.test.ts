import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { addEntry, newJob } from '../../src/job/job.ts';
import { jobFileText } from '../../src/job/job-file.ts';
import { JOB_VERSION } from '../../src/job/job-schema.ts';
import { seal } from '../../src/wiring/as-found/index.ts';
import { DIST, filesOfSite } from '../support/site-folder.ts';
import { openTab, serveFolder, waitUntilSaved } from './harness.ts';
import { openSoFar } from './job-steps.ts';
import { ONE_PAGE, siteInBrowser } from './site.ts';

const OLD = 'system-boiler-two-port';
const NOW = 'heat-only-two-port';
const FORMER =
  /^(?:(?:data|job)\/)?(?:systems\/)?system-boiler-(?:two-port|mid|con)|-system-boiler\//;
/** What somebody marked on the page as it was called before, and sent on as a link. */
const MARKS = seal(OLD, 1, { x: ['X1.1>X1.7'] });
const DIFFERENCE = /terminal 1 at X1.*terminal 7 at X1/;

const site = siteInBrowser(ONE_PAGE);

const at = (page: Page) => page.url().slice(page.url().indexOf('/', 10) + 1);
/** Opens an address and waits until the page leads no further. */
async function opened(page: Page, address: string, now: string): Promise<void> {
  await page.goto(address);
  await page.waitForURL((url) => url.pathname.endsWith(now.split(/[?#]/)[0]!));
}

/** Every sort of address that a renamed system had, and what it is now. */
const ADDRESSES: readonly (readonly [old: string, now: string])[] = [
  [`systems/${OLD}/`, `systems/${NOW}/`],
  [`systems/${OLD}/?mode=heating#wiring`, `systems/${NOW}/wiring/?mode=heating#wiring`],
  [`systems/${OLD}/as-found/`, `systems/${NOW}/as-found/`],
  [`systems/${OLD}/replace/#q2`, `systems/${NOW}/replace/#q2`],
  [`systems/${OLD}/replace/b1-wireless-receiver/`, `systems/${NOW}/replace/b1-wireless-receiver/`],
  [
    `systems/${OLD}/sequences/valve-does-not-open/#step-1`,
    `systems/${NOW}/sequences/valve-does-not-open/#step-1`,
  ],
  ['devices/system-boiler/#terminal-SL', 'devices/heat-only-boiler/#terminal-SL'],
  ['glossary/regular-boiler/', 'glossary/heat-only-boiler/'],
];

test('every file that leads on leads to one that is there; data stands at both addresses', () => {
  const files = filesOfSite();
  const led = files.filter((path) => FORMER.test(path));
  expect(led.length).toBeGreaterThan(100);
  const now = new Set(files);
  for (const path of led) {
    const text = readFileSync(join(DIST, path), 'utf8');
    if (!path.endsWith('.html')) {
      const same = path.replace('system-boiler-', 'heat-only-');
      expect([path, text === readFileSync(join(DIST, same), 'utf8')]).toEqual([path, true]);
      continue;
    }
    const [, to = ''] = /<a id="now" href="\/([^"]*)">/.exec(text) ?? [];
    expect([path, now.has(`${to}index.html`), FORMER.test(to)]).toEqual([path, true, false]);
  }
});

describe('an address of old', () => {
  test.each(ADDRESSES)(
    'leads on from a plain host, with all that stands behind: %s',
    async (old, now) => {
      const { page, complaints, close } = await openTab(site.chromium.browser, {
        serviceWorkers: 'block',
      });
      await opened(page, `${site.server.address}${old}`, now);
      expect(at(page)).toBe(now);
      expect(complaints.foreign).toEqual([]);
      await close();
    },
  );

  test('leads on without scripts too', async () => {
    const { page, close } = await openTab(site.chromium.browser, { javaScriptEnabled: false });
    await opened(page, `${site.server.address}systems/${OLD}/`, `systems/${NOW}/`);
    expect(await page.locator('h1').textContent()).toContain('Heat-only boiler');
    await close();
  });
});

/** A phone that has saved the site on one visit, and has no signal from then on. */
describe('with no signal', () => {
  let phone: Awaited<ReturnType<typeof openTab>>;
  let home: string;
  beforeAll(async () => {
    const own = await serveFolder();
    home = own.address;
    phone = await openTab(site.chromium.browser);
    await phone.page.goto(home);
    await waitUntilSaved(phone.page);
    await own.stop();
  });
  afterAll(() => phone.close());

  test('an address of old leads on from what the phone keeps', async () => {
    const { page, complaints } = phone;
    for (const [old, now] of ADDRESSES) {
      await opened(page, `${home}${old}`, now);
      expect(at(page)).toBe(now);
      expect(await page.locator('h1').count()).toBe(1);
    }
    expect(complaints).toEqual({ console: [], foreign: [] });
  });

  test('what it keeps under a former name stands on the page of now', async () => {
    const { page, complaints } = phone;
    await page.evaluate(
      ([old, marks]) => {
        // As on a phone that never met the page of now.
        localStorage.clear();
        localStorage.setItem(`proveline.as-found.${old}`, marks!);
        localStorage.setItem(`proveline.mode.${old}`, 'hot-water');
        localStorage.setItem(
          `proveline.marks.${old}.b1-wireless-receiver`,
          JSON.stringify({ 'old COM': 'C1' }),
        );
        localStorage.setItem(
          'proveline.pins',
          JSON.stringify([{ path: `/systems/${old}/`, title: 'Of old', kind: 'system' }]),
        );
      },
      [OLD, MARKS],
    );
    await page.goto(home);
    await page.click('[data-list="pins"] a');
    await page.waitForURL(`${home}systems/${NOW}/`);
    expect(await page.locator('[data-act="pin"]').getAttribute('aria-pressed')).toBe('true');
    expect(await page.locator('#mode-hot-water').isChecked()).toBe(true);
    const pins = await page.evaluate(() => localStorage.getItem('proveline.pins'));
    expect(JSON.parse(pins ?? '')).toEqual([
      { path: `/systems/${NOW}/`, title: expect.stringContaining('Heat-only'), kind: 'system' },
    ]);

    await page.goto(`${home}systems/${NOW}/as-found/`);
    await page.locator('.difference-list li', { hasText: DIFFERENCE }).waitFor();
    await page.goto(`${home}systems/${NOW}/replace/b1-wireless-receiver/`);
    expect(await page.locator('input[name="old COM"]').inputValue()).toBe('C1');
    const left = await page.evaluate(() =>
      Object.keys(localStorage).filter((key) => key.includes('system-boiler')),
    );
    expect(left).toEqual([]);
    expect(complaints).toEqual({ console: [], foreign: [] });
  });
});

describe('what was kept under a former name', () => {
  test('comes with a link of old: marks behind the #', async () => {
    const { page, close } = await openTab(site.chromium.browser, { serviceWorkers: 'block' });
    await page.goto(`${site.server.address}systems/${OLD}/as-found/#as=${MARKS}`);
    await page.locator('.difference-list li', { hasText: DIFFERENCE }).waitFor();
    expect(at(page)).toMatch(new RegExp(`^systems/${NOW}/as-found/#as=`));
    await close();
  });
});

describe('a job under a former name', () => {
  const job = addEntry(
    newJob(
      { id: OLD, title: 'System boiler with two-port valves', wiring: 1, mode: 'heating' },
      { name: 'Of old', place: 'Hall' },
    ),
    { kind: 'look', mode: 'heating', outcome: 'E1.burner', answer: 'not seen' },
  );

  test('is imported from its file, opens, is worked on and kept', async () => {
    const { page, complaints, close } = await openTab(site.chromium.browser, {
      serviceWorkers: 'block',
    });
    await page.goto(`${site.server.address}job/`);
    await page.locator('input[type=file]').setInputFiles({
      name: 'job.json',
      mimeType: 'application/json',
      buffer: Buffer.from(
        jobFileText({ proveline: 'job', version: JOB_VERSION, job, pictures: [] }),
      ),
    });
    await page.locator('.import [role=status]', { hasText: 'Imported: Of old.' }).waitFor();
    await page.click('.job-list a');
    await page.click('.job-tabs >> text=Next');
    await openSoFar(page);
    await page.waitForSelector('.cause');
    expect(await page.locator('.job-system').getAttribute('href')).toBe(`/systems/${NOW}/`);
    await page.click('.job-tabs >> text=Seen');
    await page.reload();
    await page.click('.job-tabs >> text=Next');
    await page.waitForSelector('.so-far');
    await openSoFar(page);
    expect(await page.locator('.cause').count()).toBeGreaterThan(1);
    // Its readings stand beside the wiring as found, too.
    await page.goto(`${site.server.address}systems/${OLD}/as-found/#job=${job.id}`);
    await page.locator('.found-desk', { hasText: 'Of old' }).waitFor();
    expect(complaints).toEqual({ console: [], foreign: [] });
    await close();
  });

  test('begins where an address of old asks for it, with what is seen', async () => {
    const { page, close } = await openTab(site.chromium.browser, { serviceWorkers: 'block' });
    await page.goto(`${site.server.address}job/?system=${OLD}&seen=E1.burner%40heating%3Ano`);
    await page.waitForSelector('#job .lede');
    expect(await page.locator('#job .lede').textContent()).toContain('Heat-only boiler');
    expect(await page.locator('#job').textContent()).toContain('It begins with what the symptom');
    await close();
  });
});
