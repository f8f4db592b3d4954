import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { PartsData } from '../../src/composer/parts-data.ts';
import { ANSWERS, type Model } from '../../src/diagnosis/inference/index.ts';
import { ComposedEngine } from '../../src/job/composed-engine.ts';
import { modelOf } from '../../src/job/job-data.ts';
import { DIST } from '../support/site-folder.ts';
import { launch, readManifest, type TestBrowser } from './harness.ts';
import { openSoFar, turnTo } from './job-steps.ts';
import { isSound, offlinePhone, phone } from './phone.ts';
import { siteInBrowser } from './site.ts';

const OF = 'v=1&heat=combi-mains-call&heating=wireless-receiver&additions=condensate-pump';
/** What is hidden in this house. */
const FAULT = 'K1/make contact:open';
const STANDING =
  /Composed from parts\. Circuit computed; .* No person has reviewed this arrangement/;
const MOST_ACTS = 20;

/** The parts as the built site serves them. */
function parts(): PartsData {
  const files = readManifest().packs.flatMap((pack) => pack.files);
  const file = files.find((one) => /^compose\/parts\.[0-9a-f]{8}\.json$/.test(one))!;
  return JSON.parse(readFileSync(join(DIST, file), 'utf8'));
}

/** The arrangement with all that its faults show, worked out apart from any browser. */
function circuit(): { model: Model; answerTo: (test: string) => string; title: string } {
  const engine = new ComposedEngine(OF, parts());
  const request = {
    entries: [],
    mode: 'standby',
    history: 'worked until now',
    cannot: [],
  } as const;
  for (const come of engine.work({ ...request, pairs: false })) if (come === 'whole') break;
  const model = modelOf(engine.data);
  const { row, title } = model.singles.find(({ id }) => id === FAULT)!;
  return {
    model,
    title,
    answerTo(test) {
      const answer = ANSWERS[row![model.testAt.get(test)!]!]!;
      return answer === 'no short' ? 'resistance' : answer;
    },
  };
}

/** Does what the panel asks, answered as the faulty circuit answers. @returns the test made; null once found. */
async function doNext(page: Page, answerTo: (test: string) => string): Promise<string | null> {
  await page.locator('.panel[data-test][aria-busy=false], .panel.found').waitFor();
  const id = await page.locator('.panel').getAttribute('data-test');
  if (id === null) return null;
  const ready = page.locator('.panel[data-test] > .main-act');
  while (await ready.count()) await ready.tap();
  await page
    .locator(`.answer-key[data-answer="${answerTo(id)}"]`)
    .first()
    .tap();
  await page.waitForFunction(
    (before) => document.querySelector('.panel')?.getAttribute('data-test') !== before,
    id,
  );
  return id;
}

let chromium: TestBrowser;
beforeAll(async () => {
  chromium = await launch();
});
afterAll(() => chromium.close());

describe('a visit to an arrangement that no page describes, offline at 360 px', () => {
  const { answerTo, title } = circuit();
  let context: BrowserContext;
  let said: string[];
  let page: Page;
  let site: string;

  beforeAll(async () => {
    ({ context, said, page, site } = await offlinePhone(chromium, {}));
  });
  afterAll(() => context.close());

  test('begins without a system, is composed from what is seen, and goes on', async () => {
    await page.goto(`${site}job/?complaint=no-heating-hot-water-works`);
    await page.tap('text=It worked until now');
    await page.tap('text=I do not know this system yet');
    await page.getByText('Not among them? Put it together from its parts').tap();
    for (const [asks, key] of [
      ['Which kind of boiler', 'Combi boiler'],
      ['How is the boiler called', 'Combi boiler, mains call'],
      ['What makes the call', 'The controls themselves'],
      ['hot-water cylinder', 'No cylinder'],
      ['How many heating zones', 'One'],
      ['Which valve opens', 'No valve of its own'],
      ['programmer or time switch', 'None'],
      ['What calls for heating', 'Wireless receiver'],
      ['condensate pump', "Condensate pump in the boiler's supply"],
    ] as const) {
      await page.locator('h1', { hasText: asks }).waitFor();
      await page.locator('.part-key', { has: page.locator(`b:text-is("${key}")`) }).tap();
    }
    await page.getByText('Nothing more, the rest as usual').tap();
    await page.locator('.standing-line').waitFor();
    expect(new URL(page.url()).hash).toBe(`#${OF}`);
    await page.getByText('It is the system of the open visit').tap();
    await page.locator('.panel[data-test]').waitFor();
    // The complaint says what is seen, in place of a question.
    await openSoFar(page);
    expect(await page.locator('.so-far').textContent()).toContain('Radiators');
    expect(await page.locator('.job-head').textContent()).toMatch(/Combi boiler, mains call/);
  });

  test('says what is proven of it, that nobody reviewed it, and how its tests are chosen', async () => {
    const proven = page.locator('details.proven');
    expect(await proven.locator('summary').textContent()).toContain('reviewed by no person');
    await proven.locator('summary').tap();
    await expect.poll(() => proven.textContent()).toMatch(STANDING);
    expect(await proven.textContent()).toMatch(/No order of tests is proven .* step by step/);
    await isSound(page);
  });

  test('is taken up where it was when the tab was killed', async () => {
    await doNext(page, answerTo);
    await page.locator('.panel[data-test][aria-busy=false]').waitFor();
    const address = page.url();
    await page.close();
    page = await context.newPage();
    await page.goto(address);
    await page.locator('.panel[data-test]').waitFor();
    await turnTo(page, 'Readings');
    expect(await page.locator('.entry-list > li').count()).toBeGreaterThan(2);
    await turnTo(page, 'Next');
  });

  test('answered as the circuit with a hidden fault answers, finds it', async () => {
    const made: string[] = [];
    for (;;) {
      const id = await doNext(page, answerTo);
      if (id === null) break;
      expect(made, 'each test once').not.toContain(id);
      expect(made.length, `${made.join(', ')} and still not found`).toBeLessThan(MOST_ACTS);
      made.push(id);
    }
    expect(await page.locator('.panel.found h2').textContent()).toBe('Found');
    expect(await page.locator('.panel.found .next-what').textContent()).toBe(title);
    // The drawing is made here, and stands as the cause leaves it.
    await page.waitForSelector('.panel.found .conductor[data-live="*"]');
    await isSound(page);
    await page.locator('.panel.found > .main-act').tap();
    await page.locator('#record-title').waitFor();
  });

  test('its record and job sheet bear the sentence', async () => {
    await expect.poll(() => page.locator('.job-sheet .proven').textContent()).toMatch(STANDING);
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.job-sheet .proven').isVisible()).toBe(true);
    await page.emulateMedia({ media: 'screen' });
    await isSound(page);
  });

  test('what is wired otherwise is marked on the same circuit, and kept with the visit', async () => {
    await page.getByText('Mark what is wired otherwise').tap();
    await page.locator('.item-block').first().waitFor();
    expect(new URL(page.url()).pathname).toMatch(/compose\/as-found\/$/);
    expect(await page.locator('.found-head').textContent()).toContain('No person has reviewed');
    await page.tap('summary:has-text("Fuses and breakers")');
    await page.tap('fieldset:has-text("Fuse of the fused spur Q1") button:text-is("13 A")');
    await page.locator('.difference-list li').first().waitFor();
    await isSound(page);
    await page.getByRole('button', { name: 'Keep with the job' }).tap();
    await page.getByText('Kept with the job.').waitFor();
    await page.getByText(/^Back to /).tap();
    await turnTo(page, 'Record');
    await page.getByText('Open it', { exact: true }).tap();
    await page.locator('.difference-list li', { hasText: '13 A instead of 3 A' }).waitFor();
    expect(said).toEqual([]);
  });

  test('is listed on the home page, and a pin leads to the arrangement', async () => {
    await page.goto(`${site}compose/#${OF}`);
    await page.locator('.standing-line').waitFor();
    await page.getByRole('button', { name: 'Pin to the home page' }).tap();
    await page.goto(site);
    await page.locator('.visits li', { hasText: 'No heating' }).waitFor();
    await page.locator('.pins a', { hasText: 'Combi boiler, mains call' }).tap();
    await page.locator('.standing-line').waitFor();
    expect(new URL(page.url()).hash).toBe(`#${OF}`);
  });
});

describe('a visit whose address came from elsewhere', () => {
  const site = siteInBrowser();

  async function opened(address: string) {
    const { context, said } = await phone(site.chromium, { serviceWorkers: 'block' });
    const page = await context.newPage();
    await page.goto(`${site.server.address}${address}`);
    return { page, said, context };
  }
  const begin = async (page: Page) => {
    await page.tap('text=None of these');
    await page.tap('text=It worked until now');
  };

  test('begins in a fresh profile', async () => {
    const { page, context } = await opened(`compose/#${OF}`);
    await page.getByText('Begin a visit on this arrangement').tap();
    await page.getByText('No person has reviewed it').waitFor();
    await begin(page);
    await page.locator('.panel[data-test]').waitFor();
    expect(new URL(page.url()).search).toBe('');
    await context.close();
  });

  test.each([
    ['a part that is withdrawn', OF.replace('condensate-pump', 'condensate-lift')],
    ['a way of wiring that is gone', `${OF}~in+the+air`],
    ['no circuit', 'v=1&heat=combi-mains-call&heating='],
  ])('of %s says so plainly, and gives the raw file away', async (_, of) => {
    const { page, context } = await opened(`job/?of=${encodeURIComponent(of)}#new`);
    await begin(page);
    const why = page.locator('.caution', { hasText: 'can no longer be put together' });
    await why.waitFor();
    await isSound(page);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Export' }).tap(),
    ]);
    const file = JSON.parse(readFileSync((await download.path())!, 'utf8'));
    expect(file.job.composed).toEqual({ specification: of, parts: null });
    // It stands in the list as every other.
    await page.goto(`${site.server.address}job/#all`);
    await page.locator('.job-list li').first().waitFor();
    await context.close();
  });

  test('that says nothing begins as any other visit', async () => {
    const { page, context } = await opened('job/?of=%3Cb%3E#new');
    await page.tap('text=None of these');
    await page.tap('text=It worked until now');
    await page.getByText('I do not know this system yet').waitFor();
    await context.close();
  });

  test('whose parts were wired otherwise when it was begun says so, and loses nothing', async () => {
    const { page, context } = await opened(`job/?of=${encodeURIComponent(OF)}#new`);
    await begin(page);
    await page.locator('.panel[data-test]').waitFor();
    await page.waitForTimeout(500);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      (async () => {
        await turnTo(page, 'Record');
        await page.getByRole('button', { name: 'Export' }).last().tap();
      })(),
    ]);
    const file = JSON.parse(readFileSync((await download.path())!, 'utf8'));
    expect(file.job.composed.parts).toMatch(/^[0-9a-f]{16}$/);
    file.job.composed.parts = 'fedcba9876543210';
    file.job.id = 'of-before';
    await page.goto(`${site.server.address}job/#all`);
    await page.locator('.import input').setInputFiles({
      name: 'job.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(file)),
    });
    await page.getByText(/^Imported/).waitFor();
    await page.goto(`${site.server.address}job/#of-before`);
    await page.getByText('The parts of this arrangement have changed').waitFor();
    await turnTo(page, 'Next');
    await page.locator('.panel[data-test]').waitFor();
    await isSound(page);
    await context.close();
  });
});
