import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launch, serveFolder, type TestBrowser } from './harness.ts';
import {
  answerWith,
  beginJob,
  giveAnswer,
  openSoFar,
  pick,
  read,
  see,
  turnTo,
} from './job-steps.ts';
import { isSound, offlinePhone, phone } from './phone.ts';
import { ONE_PAGE } from './site.ts';

const SYSTEM = 'heat-only-condensate-pump';
/** What is wrong in the house of these tests, as the page says it. */
const FAULT = 'Heating valve Q2: end switch slipped or burnt, does not close';
/** A picture to keep: PNG, which the page makes a JPEG. */
const PICTURE = readFileSync('public/icons/icon-180.png');

/** A word of the scale with its figure. */
const CERTAINTY =
  /(over |under )?\d+ %, (virtually certain|very likely|likely|about as likely as not|unlikely)/;

const firstCause = (page: Page) => page.locator('.cause').first();
let chromium: TestBrowser;
beforeAll(async () => {
  chromium = await launch(undefined, ONE_PAGE);
});
afterAll(() => chromium.close());

describe('a whole job, offline, one hand', () => {
  let tab: Awaited<ReturnType<typeof offlinePhone>>;
  let page: Page;
  let site: string;
  let file: string;

  beforeAll(async () => {
    tab = await offlinePhone(chromium, { colorScheme: 'light', acceptDownloads: true });
    ({ page, site } = tab);
  });
  afterAll(() => tab.context.close());

  test('begins on a system’s page', async () => {
    await page.goto(`${site}systems/${SYSTEM}/`);
    await page.tap('text=Find the fault');
    await page.waitForSelector('text=What is wrong?');
    await isSound(page);
    await beginJob(page);
    await page.waitForSelector('.panel .answer-key');
    await isSound(page);
    await turnTo(page, 'Record');
    await page.fill('#job-name-now', 'No heat <b>upstairs</b>');
    await page.fill('#job-place-now', '12 Mill Lane');
    await turnTo(page, 'Seen');
  });

  test('takes what is seen, in the outcome’s own words, and ranks what explains it', async () => {
    await see(page, 'Heating only', 'Boiler display lit');
    await see(page, 'Heating only', 'Boiler not firing');
    expect(await page.locator('.astray-line').textContent()).toMatch(/Boiler firing here/);
    await see(page, 'Heating only', 'Programmer shows heating on');
    await see(page, 'Heating only', 'Valve lever slack, valve open');
    await isSound(page);
    await turnTo(page, 'Next');
    await page.waitForSelector('.panel h2');
    await openSoFar(page);
    await page.locator('.cause').nth(3).waitFor();
    // Looks alone find nothing: it says what is left, and what would settle it.
    const standing = page.locator('.standing');
    await standing.locator('text=What would settle it:').waitFor();
    expect(await standing.locator('h2').textContent()).toBe('Not found yet');
    expect(await standing.textContent()).toMatch(/Left beside it: .*not on the drawing: /);
    await isSound(page);
  });

  test('undoes and is told again', async () => {
    await turnTo(page, 'Readings');
    expect(await page.locator('.entry').count()).toBe(4);
    expect(await page.locator('.undone').textContent()).toMatch(/valve lever slack.*Q2/);
    await page.tap('.last-line >> text=Undo');
    expect(await page.locator('.entry').count()).toBe(3);
    await turnTo(page, 'Seen');
    await see(page, 'Heating only', 'Valve lever slack, valve open');
  });

  test('asks for the caution before it takes a reading', async () => {
    await turnTo(page, 'Readings');
    await page.tap('text=Take a reading');
    await isSound(page);
    await pick(page, 'X1', '7');
    expect(await page.locator('.safety').textContent()).toMatch(
      /Isolate, the .* off, prove dead.*competent in live testing.*GS38/,
    );
    expect(await page.locator('.answer-key').first().isDisabled()).toBe(true);
    // What it should be is not told before it is asked for.
    await page.waitForSelector('text=Normal here?');
    expect(await page.locator('.due').isVisible()).toBe(false);
    await page.tap('text=Normal here?');
    expect(await page.locator('.due').textContent()).toMatch(/live, 230 V/);
    await isSound(page);
  });

  test('loses nothing when the tab is killed in the middle of a reading', async () => {
    await page.close();
    page = await tab.context.newPage();
    await page.goto(`${site}job/`);
    await page.waitForSelector('.chosen-point');
    expect(await page.locator('.chosen-point .point').textContent()).toBe('Terminal 7');
    // What was ticked before is asked again: nobody knows what happened meanwhile.
    expect(await page.locator('.answer-key').first().isDisabled()).toBe(true);
    await answerWith(page, 'no volts');
    // Once it is entered, it is.
    await page.locator('.last-line .said', { hasText: 'should be: live, 230 V' }).waitFor();
  });

  test('reaches the fault from readings in any order, one of them typed', async () => {
    await read(page, 'X1', '4', 'live');
    await turnTo(page, 'Readings');
    await page.tap('text=Take a reading');
    await pick(page, 'X1', '8');
    // The same item, the same supply: its tick still holds.
    expect(await page.locator('.safety .tick input').isChecked()).toBe(true);
    await page.tap('text=Type the figure');
    for (const key of ['3', '.', '5'])
      await page.locator('.pad button', { hasText: key }).first().tap();
    expect(await page.locator('.figure-shown').textContent()).toMatch(/3\.5 V AC: no volts/);
    await isSound(page);
    await page.tap('text=Enter the figure');
    await page.waitForSelector('.panel h2');
    await openSoFar(page);
    const first = firstCause(page);
    await first.locator('summary', { hasText: FAULT }).waitFor();
    expect(await first.textContent()).toMatch(/Because .*no volts/);
    expect(await first.locator('.certainty').textContent()).toMatch(CERTAINTY);
    expect(await first.textContent()).toMatch(/replace the motor or the head of the heating valve/);
    await isSound(page);
  });

  test('takes a dead test only after isolating is ticked', async () => {
    await turnTo(page, 'Readings');
    await page.tap('text=Take a reading');
    await page.tap('text=Dead test');
    await pick(page, 'X1', '1');
    await page.tap('.reading-form .fold > summary');
    await page.selectOption('#reading-to', 'X1.7');
    expect(await page.locator('.safety .caution').textContent()).toMatch(/prove dead at X1 itself/);
    expect(await page.locator('.answer-key').first().isDisabled()).toBe(true);
    await isSound(page);
    await answerWith(page, 'open');
    await openSoFar(page);
    await firstCause(page).locator('summary', { hasText: FAULT }).waitFor();
    // What it has come to was said anew: of the likeliest, in the same words as the list.
    await page.locator('.standing', { hasText: FAULT }).waitFor();
    expect(await page.locator('.standing').textContent()).toMatch(CERTAINTY);
  });

  test('enters the repair, proves it and finishes', async () => {
    await firstCause(page).locator('text=Repaired: go on to proving').tap();
    await page.waitForSelector('text=Prove it');
    await isSound(page);
    const heating = page.locator('.mode-block', {
      has: page.locator('summary b:text-is("Heating only")'),
    });
    await heating.locator('summary').tap();
    await heating.locator('text=All as it should be').tap();
    await heating.locator('summary', { hasText: 'proved' }).waitFor();
    await page.tap('summary:has-text("Readings, taken again")');
    await page.waitForSelector('.again-list .v');
    await isSound(page);
    await page
      .locator('.again-list li', { hasText: 'terminal 7 to N at X1' })
      .locator('text=Take it again')
      .tap();
    await giveAnswer(page, 'live');
    // What is still to be proved stands open again, the reading beside the one before.
    const again = page.locator('.again-list li', { hasText: 'terminal 7 to N at X1' });
    await again.locator('text=/Was no volts; must be.*now live/').waitFor();
    await page.fill('#repair-done', `${FAULT}: head of the valve changed`);
    await turnTo(page, 'Record');
    await page.locator('.photos input[type=file]').setInputFiles({
      name: 'terminal.png',
      mimeType: 'image/png',
      buffer: PICTURE,
    });
    await page.waitForSelector('.photo-list img');
    await page.fill('#job-by', 'A. Fitter');
    await page.tap('text=Finish the job');
    const sheet = page.locator('.job-sheet');
    expect(await sheet.textContent()).toContain('No heat <b>upstairs</b>');
    expect(await sheet.textContent()).toContain(`${FAULT}: head of the valve changed`);
    expect(await sheet.locator('tr', { hasText: 'terminal 7 to N at X1' }).textContent()).toMatch(
      /no volts.*live/,
    );
    await isSound(page);
  });

  test('prints as a sheet of its own', async () => {
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.job-sheet').isVisible()).toBe(true);
    for (const other of ['.job-tabs', '.words', '.mend', '.site-header'])
      expect([other, await page.locator(other).first().isVisible()]).toEqual([other, false]);
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)?.length).toBeLessThanOrEqual(2);
    await page.emulateMedia({ media: null });
  });

  test('exports a file', async () => {
    const download = page.waitForEvent('download');
    await page.tap('.record-acts >> text=Export');
    const done = await download;
    expect(done.suggestedFilename()).toMatch(/^job-no-heat-.*\.json$/);
    file = readFileSync(await done.path(), 'utf8');
    expect(JSON.parse(file)).toMatchObject({ proveline: 'job', job: { by: 'A. Fitter' } });
  });

  test('lists the newest first, and deletes only when asked twice', async () => {
    await page.tap('.site-jobs');
    await page.tap('text=New job');
    await beginJob(page);
    await page.tap('text=By its name');
    await page.fill('#system-query', 'volt-free');
    await isSound(page);
    await page.locator('.choose-system .fold .pick-list button').first().tap();
    await page.waitForSelector('.panel h2');
    await turnTo(page, 'Record');
    await page.fill('#job-name-now', 'Second');
    await page.tap('.site-jobs');
    await page.locator('.job-list li').nth(1).waitFor();
    const names = page.locator('.job-list strong');
    expect(await names.allTextContents()).toEqual(['Second', 'No heat <b>upstairs</b>']);
    await page.tap('text=Delete Second');
    await isSound(page);
    await page.tap('text=Delete it');
    await page.waitForFunction(() => document.querySelectorAll('.job-list li').length === 1);
    expect(await names.allTextContents()).toEqual(['No heat <b>upstairs</b>']);
    expect(tab.said).toEqual([]);
  });

  test('comes whole into a fresh profile; damaged files change nothing', async () => {
    const other = await phone(chromium, {
      colorScheme: 'dark',
      acceptDownloads: true,
      serviceWorkers: 'block',
    });
    const server = await serveFolder();
    const fresh = await other.context.newPage();
    await fresh.goto(`${server.address}job/`);
    const status = fresh.locator('.import [role=status]');
    const give = (text: string | Buffer) =>
      fresh.locator('input[type=file]').setInputFiles({
        name: 'job.json',
        mimeType: 'application/json',
        buffer: Buffer.from(text),
      });
    for (const [text, said] of [
      [file.slice(0, 400), /damaged/],
      ['{"other":"thing"}', /not a job/],
      [file.replace('"kind": "look"', '"kind": "peek"'), /This job is damaged at job › entries/],
      [Buffer.alloc(3 * 1024 * 1024, 32), /3\.0 MB; a job’s file has at most/],
    ] as const) {
      await give(text);
      await status.filter({ hasText: said }).waitFor();
      expect(await fresh.locator('.job-list').count()).toBe(0);
    }
    await isSound(fresh);
    await give(file);
    await status.filter({ hasText: 'Imported: No heat <b>upstairs</b>.' }).waitFor();
    await fresh.locator('.job-list a').tap();
    await fresh.waitForSelector('.job-sheet');
    expect(await fresh.locator('.job-sheet').textContent()).toContain(FAULT);
    await fresh.waitForSelector('.job-sheet .photo-list img');
    expect(other.said).toEqual([]);
    await other.context.close();
    await server.stop();
  });
});

test('with storage refused it says so, works in memory and offers the export', async () => {
  const { context, said } = await phone(chromium, {
    colorScheme: 'dark',
    acceptDownloads: true,
    serviceWorkers: 'block',
  });
  const server = await serveFolder();
  await context.addInitScript(() =>
    Object.defineProperty(globalThis, 'indexedDB', {
      value: {
        open: () => {
          throw new DOMException('refused', 'SecurityError');
        },
      },
    }),
  );
  const page = await context.newPage();
  await page.goto(`${server.address}job/?system=combi-two-wire`);
  await beginJob(page);
  await page.waitForSelector('.panel h2');
  expect(await page.locator('#job > .caution').textContent()).toMatch(
    /keeps nothing here.*Export it/,
  );
  await turnTo(page, 'Seen');
  await see(page, 'Heating call', 'Boiler not firing');
  await isSound(page);
  await turnTo(page, 'Next');
  await page.waitForSelector('.panel h2');
  await isSound(page);
  await turnTo(page, 'Readings');
  await page.tap('text=Take a reading');
  await pick(page, 'E1', 'L');
  await isSound(page);
  await page.tap('text=Leave without entering');
  await turnTo(page, 'Record');
  const download = page.waitForEvent('download');
  await page.tap('.record-acts >> text=Export');
  const text = readFileSync(await (await download).path(), 'utf8');
  expect(JSON.parse(text).job.entries).toHaveLength(1);
  await isSound(page);
  expect(said).toEqual([]);
  await context.close();
  await server.stop();
});

test('the diagram picks a terminal', async () => {
  const { context, said } = await phone(chromium, {
    colorScheme: 'dark',
    acceptDownloads: true,
    serviceWorkers: 'block',
  });
  const server = await serveFolder();
  const page = await context.newPage();
  await page.goto(`${server.address}job/?system=${SYSTEM}`);
  await beginJob(page);
  await page.waitForSelector('.panel h2');
  await turnTo(page, 'Readings');
  await page.tap('text=Take a reading');
  await page.tap('text=Diagram');
  const cells = page.locator('.pan [data-terminal] .cell');
  await cells.first().waitFor();
  const heights = await cells.evaluateAll((all) =>
    all.map((cell) => cell.getBoundingClientRect().height),
  );
  expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
  await page.tap('[data-terminal="E1.SL"] .cell');
  await page.waitForSelector('.chosen-point');
  // The drawing is taller than the phone: what comes after it begins at its head.
  await page.waitForFunction(() => scrollY === 0 && document.activeElement?.id === 'main');
  expect(await page.locator('.chosen-point .point').textContent()).toBe('SL');
  expect(await page.locator('#reading-to').inputValue()).toBe('E1.N');
  expect(said).toEqual([]);
  await context.close();
  await server.stop();
});

describe('a caution stands where the act is proposed', () => {
  const begun = async (system: string) => {
    const { context } = await phone(chromium, { colorScheme: 'light', serviceWorkers: 'block' });
    const server = await serveFolder();
    const page = await context.newPage();
    await page.goto(`${server.address}job/?system=${system}`);
    await beginJob(page);
    await page.waitForSelector('.panel h2');
    const end = async () => {
      await context.close();
      await server.stop();
    };
    return { page, end };
  };

  test('a look that may need a cover off says so, in the job and where it is proved', async () => {
    const { page, end } = await begun('heat-only-two-port');
    await turnTo(page, 'Seen');
    const looks = page.locator('.mode-block[open] .outcome', { hasText: 'Overheat cut-out' });
    expect(await looks.locator('.caution').textContent()).toMatch(/isolate.*Do not press it/);
    const underCover = { hasText: /isolate/i };
    expect(await page.locator('.mode-block[open] .outcome .caution', underCover).count()).toBe(1);
    await turnTo(page, 'Record');
    await page.fill('#repair-typed', 'Core put back');
    await page.tap('text=Enter this repair');
    await page.tap('text=The rest, if there is time');
    await page.locator('.mode-block summary', { hasText: 'Heating only' }).tap();
    expect(await page.locator('.mode-block[open] > .caution', underCover).count()).toBe(1);
    await isSound(page);
    await end();
  });

  test('a reading under a cover is proposed with isolating before it comes off', async () => {
    const { page, end } = await begun('combi-two-wire');
    const panel = page.locator('.panel[aria-busy=false]');
    // Everything looks as it should: nothing is opened before there is nothing left to look at.
    for (let looks = 0; looks < 60; looks++) {
      await panel.waitFor();
      const test = await panel.getAttribute('data-test');
      if (!(await page.locator('.keys-look').isVisible())) break;
      await page.tap('text=Normal here?');
      const due = (await panel.locator('.due .answer-words').textContent())!;
      await panel.locator('.answer-key', { hasText: due }).first().tap();
      await page.waitForFunction(
        (before) =>
          document.querySelector('.panel[aria-busy=false]')?.getAttribute('data-test') !== before,
        test,
      );
    }
    // The caution stands before the answers, which come when what it asks is ticked.
    expect(await panel.locator('.answer-key').count()).toBe(0);
    expect(await panel.locator('.caution').textContent()).toMatch(
      /Switch Q1 off|Isolate, lock off|Isolate and prove dead/,
    );
    await panel.locator('.main-act').tap();
    expect(await panel.locator('.care-line').textContent()).not.toBe('');
    expect(await panel.locator('.answer-key').count()).toBeGreaterThan(1);
    await isSound(page);
    await end();
  });
});
