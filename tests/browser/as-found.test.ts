import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launch, PHONE, serveFolder, type TestBrowser, waitUntilSaved } from './harness.ts';
import { beginJob, turnTo } from './job-steps.ts';
import { isSound, phone } from './phone.ts';

const PATH = 'systems/combi-condensate-pump/as-found/';
/** What the reader of these tests marks, as the page says it back. */
const DIFFERENCES = [
  'Brown core of W3 is in terminal 1 at X1 instead of terminal 3 at X1',
  'Fuse of Q1 is 13 A instead of 3 A',
];
const DANGERS = [
  'Safety device linked out: overflow switch of M1',
  'Fuse of Q1: 13 A where it should be 3 A',
  'Boiler E1 works where it must not: Condensate high, heating call',
];

/** A phone with a share sheet that remembers what it was given. */
async function sharingPhone(chromium: TestBrowser, colorScheme: 'light' | 'dark' = 'light') {
  const made = await phone(chromium, {
    colorScheme,
    permissions: ['clipboard-read', 'clipboard-write'],
  });
  await made.context.addInitScript(() => {
    navigator.share = async ({ url } = {}) => {
      document.documentElement.dataset.shared = url ?? '';
    };
  });
  return made;
}

/** A sound page, with nothing on its desk too small to tap. */
async function isSoundDesk(page: Page): Promise<void> {
  await isSound(page);
  const small = await page
    .locator('.found-desk :is(button, summary, select, label)')
    .evaluateAll((keys) =>
      keys
        .map((key) => ({ text: key.textContent, height: key.getBoundingClientRect().height }))
        .filter(({ height }) => height > 0 && height < 48),
    );
  expect(small.filter(({ text }) => !/^(From|To|Or at another item)$/.test(text ?? ''))).toEqual(
    [],
  );
}

const texts = (page: Page, selector: string) => page.locator(selector).allTextContents();
const differences = (page: Page) => texts(page, '.difference-list li');
const dangers = (page: Page) => texts(page, '.danger-list .caution-word');
const opened = (page: Page) => page.waitForSelector('.item-block');
const marked = (page: Page, count: number) =>
  page.waitForFunction((n) => document.querySelectorAll('.difference-list li').length === n, count);
const message = (page: Page) => page.locator('.said').first().textContent();

let chromium: TestBrowser;
beforeAll(async () => {
  chromium = await launch();
});
afterAll(() => chromium.close());

describe('a circuit as found, offline, one hand', () => {
  let context: BrowserContext;
  let said: string[];
  let page: Page;
  let site: string;
  let link = '';
  let result = '';

  beforeAll(async () => {
    ({ context, said } = await sharingPhone(chromium));
    const server = await serveFolder();
    site = server.address;
    page = await context.newPage();
    await page.goto(site);
    await waitUntilSaved(page);
    await server.stop();
  });
  afterAll(() => context.close());

  test('is reached from its system', async () => {
    await page.goto(`${site}systems/combi-condensate-pump/`);
    await page.tap('text=Mark it as found');
    await opened(page);
    await isSoundDesk(page);
  });

  test('two mistakes are marked by taps', async () => {
    await page.tap('#cable-W3 > summary');
    await page.tap('#cable-W3 .core-list > li:has(.BN) .end-key >> nth=0');
    await isSoundDesk(page);
    await page.tap('.picker button:has(b:text-is("1"))');
    await marked(page, 1);
    await page.tap('summary:has-text("Fuses and breakers")');
    await page.tap('fieldset:has-text("Fuse of the fused spur Q1") button:text-is("13 A")');
    await marked(page, 2);
    expect(await differences(page)).toEqual(DIFFERENCES);
  });

  test('their dangers come first, and isolating first of what is to be done', async () => {
    expect(await dangers(page)).toEqual(DANGERS);
    const changes = await texts(page, '.change-list li');
    expect(changes[0]).toMatch(/^Isolate, lock off, and prove dead/);
    expect(changes.slice(1, -1)).toEqual([
      'Move the brown core of W3 from terminal 1 at X1 to terminal 3 at X1',
      'Fit 3 A: fuse of Q1',
    ]);
    await page.tap('.mode-block:has-text("Condensate high, heating call") summary');
    expect(await page.locator('.mode-block[open]').textContent()).toContain('Boiler firing');
    result = (await page.locator('#result').textContent())!;
    await isSoundDesk(page);
  });

  test('a mark is taken back, and the page left and opened again holds the rest', async () => {
    await page.tap('text=Take the last mark back');
    await marked(page, 1);
    await page.reload();
    await marked(page, 1);
    await page.tap('summary:has-text("Fuses and breakers")');
    await page.tap('fieldset:has-text("Fuse of the fused spur Q1") button:text-is("13 A")');
    await marked(page, 2);
    await page.goto(`${site}${PATH}`);
    await marked(page, 2);
  });

  test('goes out by the share sheet and as a copy', async () => {
    await page.tap('.found-share >> text=Share');
    link = (await page.locator('html').getAttribute('data-shared'))!;
    expect(link.length).toBeLessThan(250);
    await page.tap('text=Copy link');
    await page.waitForSelector('text=Link copied.');
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(link);
  });

  test('a damaged link says so, and what is marked stays', async () => {
    for (const [bad, text] of [
      [
        link.replace('as=1.combi', 'as=1.kombi'),
        'This link is damaged: letters were lost or changed on the way. Nothing of it was taken over. Ask for it again, or copy it whole.',
      ],
      [
        `${link}${'A'.repeat(6000)}`,
        `This link is too long: ${link.split('as=')[1]!.length + 6000} letters, and one made here has at most 4000. Nothing of it was taken over.`,
      ],
      [`${site}${PATH}#nowhere`, 'This link was not made here. Nothing of it was taken over.'],
    ] as const) {
      await page.goto('about:blank');
      await page.goto(bad);
      await marked(page, 2);
      await page.waitForFunction(() => document.querySelector('.said')?.textContent !== '');
      expect(await message(page)).toBe(text);
      expect(await differences(page)).toEqual(DIFFERENCES);
    }
    await isSoundDesk(page);
  });

  test('opened in a fresh profile, in the dark, the link shows the same', async () => {
    const other = await sharingPhone(chromium, 'dark');
    const server = await serveFolder();
    const fresh = await other.context.newPage();
    await fresh.goto(link.replace(site, server.address));
    await marked(fresh, 2);
    await fresh.tap('.mode-block:has-text("Condensate high, heating call") summary');
    expect(await fresh.locator('#result').textContent()).toBe(result);
    await isSoundDesk(fresh);
    expect(other.said).toEqual([]);
    await server.stop();
    await other.context.close();
  });

  test('nothing went wrong on the console', () => {
    expect(said).toEqual([]);
  });
});

describe('beside a job', () => {
  test('its readings are held against both circuits, and a mistake they speak for is marked', async () => {
    const { context, said } = await sharingPhone(chromium);
    const server = await serveFolder();
    const page = await context.newPage();
    await page.goto(`${server.address}job/?system=combi-condensate-pump`);
    await beginJob(page);
    await turnTo(page, 'Seen');
    const block = page.locator('.mode-block', {
      has: page.locator('summary b:text-is("Condensate high, heating call")'),
    });
    await block.locator('summary').tap();
    await block.locator('.three label', { hasText: 'Boiler firing' }).tap();
    await block.locator('.three label', { hasText: 'Reservoir full' }).tap();
    const job = new URL(page.url()).hash.slice(1);
    await page.goto(`${server.address}${PATH}#job=${job}`);
    await page.waitForSelector('.stand-list');
    expect(await page.locator('.stand-neither').count()).toBe(1);
    await page.locator('text=Mark it as found').first().tap();
    await page.waitForSelector('.stand-explained');
    expect(await page.locator('.stand-neither').count()).toBe(0);
    await isSoundDesk(page);
    const marks = await differences(page);
    await page.locator('text=Keep with the job').tap();
    await page.locator('text=Kept with the job.').waitFor();
    await page.locator('.found-share a', { hasText: 'Back to' }).tap();
    await page.locator('.job-tabs >> text=Record').tap();
    const kept = page.locator('a[href*="/as-found/#"]').filter({ visible: true }).first();
    const address = new URL((await kept.getAttribute('href'))!, server.address).href;
    const other = await sharingPhone(chromium);
    const opposite = await other.context.newPage();
    await opposite.goto(address);
    await opposite.waitForSelector('.difference-list li');
    expect(await differences(opposite)).toEqual(marks);
    await other.context.close();
    expect(said).toEqual([]);
    await server.stop();
    await context.close();
  });
});

test('without script the page says what it does and where the wiring table is', async () => {
  const context = await chromium.browser.newContext({ viewport: PHONE, javaScriptEnabled: false });
  const server = await serveFolder();
  const page = await context.newPage();
  await page.goto(server.address + PATH);
  const text = (await page.locator('main').textContent())!;
  expect(text).toContain('needs the page’s script, which has not run here');
  expect(text).toContain('isolate, lock off, prove dead');
  const table = page.locator('main a', { hasText: 'wiring table' });
  expect(await table.getAttribute('href')).toContain('/systems/combi-condensate-pump/wiring/');
  await server.stop();
  await context.close();
});
