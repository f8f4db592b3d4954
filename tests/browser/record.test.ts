import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { addEntry, addRemark, addRepair, changeJob, newJob, setLook } from '../../src/job/job.ts';
import { jobFileText } from '../../src/job/job-file.ts';
import { JOB_VERSION, type Job } from '../../src/job/job-schema.ts';
import { launch, serveFolder, type TestBrowser } from './harness.ts';
import { beginJob, giveAnswer, see, turnTo } from './job-steps.ts';
import { textOfPages } from './pdf-text.ts';
import { isSound, offlinePhone, phone } from './phone.ts';

const SYSTEM = 'heat-only-condensate-pump';
const PICTURE = readFileSync('public/icons/icon-180.png');

let chromium: TestBrowser;
beforeAll(async () => {
  chromium = await launch();
});
afterAll(() => chromium.close());

const modeBlock = (page: Page, title: string) =>
  page.locator('.mode-block', { has: page.locator(`summary b:text-is("${title}")`) });

/** Whether every key on the page that can be seen is high enough for a thumb. */
const lowKeys = (page: Page) =>
  page
    .locator('#job button:visible, #job summary:visible')
    .evaluateAll((all) =>
      all
        .filter((one) => one.getBoundingClientRect().height < 48)
        .map((one) => `${one.textContent} ${one.getBoundingClientRect().height}`),
    );

describe('a record, offline, one hand', () => {
  let tab: Awaited<ReturnType<typeof offlinePhone>>;
  let page: Page;

  beforeAll(async () => {
    tab = await offlinePhone(chromium, { colorScheme: 'light' });
    ({ page } = tab);
    await page.goto(`${tab.site}job/?system=${SYSTEM}`);
    await beginJob(page);
    await turnTo(page, 'Seen');
    await see(page, 'Heating only', 'Boiler not firing');
    await turnTo(page, 'Record');
    await page.fill('#repair-typed', 'Heating valve Q2: new head fitted');
    await page.tap('text=Enter this repair');
    await page.waitForSelector('text=This proves the repair');
  });
  afterAll(() => tab.context.close());

  test('says plainly beside the finish that nothing was proved, and does not block it', async () => {
    const caution = page.locator('.caution:has(+ .record-acts)');
    expect(await caution.textContent()).toMatch(/Nothing was proved after the repair/);
    expect(await page.locator('text=Finish the job').isEnabled()).toBe(true);
    const sheet = page.locator('.job-sheet');
    expect(await sheet.textContent()).toContain('Nothing was proved after the repair.');
  });

  test('proves the repair’s own mode with one tap, which one undo takes back', async () => {
    const groups = page.locator('.proving-group');
    expect(await groups.nth(0).locator('summary b').allTextContents()).toEqual(['Heating only']);
    expect(await groups.nth(1).locator('summary b').allTextContents()).toContain('Condensate high');
    expect(await page.locator('.proving-rest').getAttribute('open')).toBeNull();
    const heating = modeBlock(page, 'Heating only');
    await heating.locator('summary').tap();
    await isSound(page);
    expect(await lowKeys(page)).toEqual([]);
    await heating.locator('text=All as it should be').tap();
    await heating.locator('summary', { hasText: 'proved' }).waitFor();
    await page.tap('.last-line >> text=Undo');
    await page.locator('.caution:has(+ .record-acts)').waitFor();
    expect(await heating.locator('summary').textContent()).not.toContain('proved');
    // What is not so is tapped; all the rest as it should be.
    await heating.locator('.proof', { hasText: 'Pump running' }).tap();
    await heating.locator('text=All the rest as it should be').tap();
    await heating.locator('summary', { hasText: '1 not so' }).waitFor();
    await heating.locator('.proof[aria-pressed=true]', { hasText: 'Pump still' }).tap();
    await heating.locator('summary', { hasText: 'proved' }).waitFor();
    expect(await page.locator('.job-sheet').textContent()).toContain(
      'Heating only: all as it should be',
    );
  });

  test('reads the boiler’s supply last, its live test ticked first, and counts it', async () => {
    const supply = modeBlock(page, 'Supply and polarity, read last');
    await supply.locator('summary').tap();
    expect(await supply.locator('summary').textContent()).toContain('0 of 3');
    const neutral = supply.locator('li').nth(2);
    await neutral.locator('.v').waitFor();
    expect(await supply.locator('.v').allTextContents()).toEqual([
      expect.stringMatching(/^live, 2[23]\d V$/),
      expect.stringMatching(/^live, 2[23]\d V$/),
      expect.stringMatching(/^no volts/),
    ]);
    await isSound(page);
    expect(await lowKeys(page)).toEqual([]);
    await neutral.locator('text=Read it').tap();
    await page.waitForSelector('.safety .caution');
    expect(await page.locator('.answer-key').first().isDisabled()).toBe(true);
    await giveAnswer(page, 'no volts');
    await supply.locator('summary', { hasText: '1 of 3' }).waitFor();
    expect(await neutral.textContent()).toMatch(/now no volts/);
  });

  test('enters something noticed, with its code in words and a photo', async () => {
    await page.locator('summary:text-is("Enter something noticed")').tap();
    await page.selectOption('#remark-item', { index: 3 });
    await page.selectOption('#remark-common', 'Scorched terminal');
    await page.locator('.codes button', { hasText: 'C1' }).tap();
    expect(await page.locator('.remark-form .caution').textContent()).toMatch(
      /make it safe at once/,
    );
    await page.locator('.remark-form input[type=file]').setInputFiles({
      name: 'terminal.png',
      mimeType: 'image/png',
      buffer: PICTURE,
    });
    await page.waitForSelector('.remark-form img');
    await isSound(page);
    expect(await lowKeys(page)).toEqual([]);
    await page.tap('text=Enter what was noticed');
    await page.waitForSelector('.remark-list img');
    expect(await page.locator('.job-sheet').textContent()).toMatch(
      /scorched terminal\. C1, danger present/,
    );
    await isSound(page);
  });

  test('has words for the customer that can be typed over, and what remains', async () => {
    await page.fill('#job-remains', 'A new lid, by us');
    const customer = page.locator('#job-customer');
    expect(await customer.inputValue()).toMatch(
      /heating valve and have put it right.*Still to be done: A new lid, by us\./,
    );
    await customer.fill('Ring me on Monday.');
    expect(await page.locator('.for-customer').textContent()).toContain('Ring me on Monday.');
    await page.tap('text=Back to the words made of this record');
    expect(await customer.inputValue()).toContain('Still to be done');
    expect(tab.said).toEqual([]);
  });
});

describe('an ordinary job, from a file', () => {
  /** Eight looks, six readings of three pairs, one repair, two modes proved, two remarks. */
  function ordinary() {
    const system = {
      id: SYSTEM,
      title: 'Heat-only boiler with pump overrun, two-port valves and condensate pump',
      wiring: 1,
      mode: 'heating',
    };
    let job = newJob(system, {
      name: 'No heat upstairs',
      place: '12 Mill Lane',
      complaint: { id: 'no-heating-hot-water-works', words: 'No heating, hot water is fine' },
    });
    const looks = [
      'E1.display',
      'E1.burner',
      'K1.display',
      'K1.heating lamp',
      'B1.calling',
      'Q2.open',
      'M1.running',
      'M2.full',
    ];
    const unseen = ['E1.burner', 'M1.running', 'M2.full'];
    for (const one of looks)
      job = setLook(job, 'heating', one, unseen.includes(one) ? 'not seen' : 'seen');
    const read = (from: string, answer: 'live' | 'dead') => {
      job = addEntry(job, {
        kind: 'live',
        mode: 'heating',
        from,
        to: 'X1.N',
        instrument: 'tester',
        answer,
      });
    };
    for (const [from, answer] of [
      ['X1.1', 'live'],
      ['X1.2', 'live'],
      ['X1.4', 'live'],
      ['X1.7', 'dead'],
      ['X1.8', 'dead'],
      ['E1.SL', 'dead'],
    ] as const)
      read(from, answer);
    job = addRepair(
      job,
      'Heating valve Q2, end switch burnt: new head fitted, isolated and proved dead',
    );
    job = addRemark(job, { place: 'Wiring centre', text: 'No cord grip', code: 'C3', photo: null });
    job = addRemark(job, {
      place: 'Fused spur',
      text: 'No fuse rating marked',
      code: 'C3',
      photo: null,
    });
    return changeJob(job, { by: 'A. Fitter', remains: 'Cord grips, by us, next visit' });
  }

  /** A phone of its own on which a job's file was taken in and opened. */
  async function opened(job: Job) {
    const { context, said } = await phone(chromium, { colorScheme: 'dark' });
    const server = await serveFolder();
    const page = await context.newPage();
    await page.goto(`${server.address}job/`);
    await page.locator('input[type=file]').setInputFiles({
      name: 'job.json',
      mimeType: 'application/json',
      buffer: Buffer.from(
        jobFileText({ proveline: 'job', version: JOB_VERSION, job, pictures: [] }),
      ),
    });
    await page.locator('.job-list a').tap();
    await page.waitForSelector('.job-sheet');
    const close = async () => {
      await context.close();
      await server.stop();
    };
    return { page, said, close };
  }

  test('read and not looked at, its sheet has the readings and no list of looks', async () => {
    const job = ordinary();
    const entries = job.entries.filter(({ observation }) => observation.kind !== 'look');
    const { page, close } = await opened({ ...job, entries });
    const heads = await page.locator('.job-sheet h4').allTextContents();
    expect(heads).toContain('Readings');
    expect(heads).not.toContain('Found');
    expect(await page.locator('.job-sheet').textContent()).not.toContain('Nothing looked at');
    await close();
  });

  test('prints on one page of A4', async () => {
    const { page, said, close } = await opened(ordinary());
    for (const title of ['Heating only', 'Nothing calling']) {
      const block = modeBlock(page, title);
      await block.locator('summary').tap();
      await block.locator('text=All as it should be').tap();
      await block.locator('summary', { hasText: 'proved' }).waitFor();
    }
    await isSound(page);
    await page.emulateMedia({ media: 'print', colorScheme: 'light' });
    const pdf = await page.pdf({ preferCSSPageSize: true });
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    const paper = textOfPages(pdf).join(' ');
    // What the customer does at a smell of gas is said once, in words meant for them.
    expect(paper.match(/0800 111 999/g)).toHaveLength(1);
    expect(paper).not.toContain('not even to isolate');
    expect(said).toEqual([]);
    await close();
  });
});
