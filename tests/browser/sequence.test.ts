import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BrowserContextOptions, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { SystemData } from '../../src/data/index.ts';
import { isAnswer } from '../support/answers.ts';
import { DIST } from '../support/site-folder.ts';
import { unfold, violations } from './accessibility.ts';
import { openTab, PHONE } from './harness.ts';
import { SHORT_VISITS, siteInBrowser } from './site.ts';

const ID = 'combi-two-wire';
const START = 'boiler-display-dark';
const PATH = `systems/${ID}/sequences/${START}/`;
const data = SystemData.parse(
  JSON.parse(readFileSync(join(DIST, 'data/systems', `${ID}.json`), 'utf8')),
);
const sequence = data.sequences.find(({ id }) => id === START)!;

const site = siteInBrowser(SHORT_VISITS);

const phone = () =>
  openTab(site.chromium.browser, {
    viewport: PHONE,
    javaScriptEnabled: false,
    serviceWorkers: 'block',
  });
/** Ids of the parts of the sequence that are to be seen. */
const shown = (page: Page) =>
  page
    .locator('.one')
    .filter({ visible: true })
    .evaluateAll((parts) => parts.map((part) => part.id));
/** How many parts a sequence has: its steps, its ends, and what is none of them. */
const partsOf = ({ steps, ends }: SystemData['sequences'][number]) =>
  steps.length + ends.length + 1;

/** Waits until the part that the address names stands at the top of the screen. */
const isAt = (page: Page, id: string) =>
  expect
    .poll(async () => Math.round((await page.locator(`#${id}`).boundingBox())?.y ?? 9999))
    .toBeLessThan(PHONE.height / 2);

describe('a sequence read on a phone, without script', () => {
  test('stands whole, and each answer leads to the next step, down to the repair', async () => {
    const { page, close } = await phone();
    await page.goto(`${site.server.address}systems/${ID}/`);
    await page.locator('#sequence a', { hasText: sequence.title }).click();
    await page.waitForURL(new RegExp(`${PATH}$`));
    expect((await shown(page)).length).toBe(partsOf(sequence));
    // What needs a script is not offered.
    expect(await page.locator('[href="#new"], #walk-said').filter({ visible: true }).count()).toBe(
      0,
    );
    await page.locator('.way-on[href="#step-1"]').click();

    // The boiler shows nothing with its supply present: what every test then answers.
    const fault = data.diagnosis.faults.find(({ id }) => id === 'E1:no display')!;
    const row = data.diagnosis.rows[fault.row]!;
    let at = sequence.first;
    while ('step' in at) {
      const number = at.step;
      const step = sequence.steps[number - 1]!;
      const digit = row[data.diagnosis.tests.findIndex(({ id }) => id === step.test)]!;
      const given = data.diagnosis.answers[Number.parseInt(digit, 36)];
      const place = step.answers.findIndex(({ answer }) => isAnswer(answer, given!));
      await isAt(page, `step-${number}`);
      const answer = page.locator(`#step-${number} .answer-links a`).nth(place);
      const box = await answer.boundingBox();
      expect(box!.height).toBeGreaterThanOrEqual(48);
      await answer.click();
      at = step.answers[place]!.next;
    }
    await isAt(page, `end-${at.end}`);
    const end = page.locator(`#end-${at.end}`);
    expect(await end.textContent()).toContain(fault.title);
    expect(await end.textContent()).toContain(fault.repair);
    expect(sequence.ends[at.end - 1]!.faults).toContain(fault.id);
    await page.goBack();
    expect(page.url()).toMatch(/#step-/);
    await close();
  });

  test('an end says what keeps its repair safe before it, and leads on to proving', async () => {
    const { page, close } = await openTab(site.chromium.browser, {
      viewport: PHONE,
      serviceWorkers: 'block',
    });
    const repaired = sequence.ends.findIndex(({ faults }) => faults.length > 0) + 1;
    await page.goto(`${site.server.address}${PATH}#end-${repaired}`);
    const end = page.locator(`#end-${repaired}`);
    const top = async (part: string) => (await end.locator(part).first().boundingBox())!.y;
    expect(await top('.live-strip')).toBeLessThan(await top('.repair'));
    expect(await top('.repair')).toBeLessThan(await top('.prove-on'));
    await end.locator('.prove-on a').click();
    await page.waitForURL(/procedures\/proving-the-loop\/$/);
    await close();
  });

  test('says at each act what keeps it safe', async () => {
    const { page, close } = await phone();
    await page.goto(site.server.address + PATH);
    const kindOf = new Map(data.diagnosis.tests.map((one) => [one.id, one.kind]));
    for (const [i, step] of sequence.steps.entries()) {
      const text = await page.locator(`#step-${i + 1}`).textContent();
      const kind = kindOf.get(step.test);
      if (kind === 'live') expect(text).toContain('prove the tester before and after');
      if (kind === 'fuse' && step.front) expect(text).toContain('Switch it off first');
      else if (kind !== 'live' && kind !== 'look')
        expect(text).toContain('Only isolated, locked off and proved dead');
    }
    expect(sequence.steps.some(({ test }) => kindOf.get(test) === 'live')).toBe(true);
    await close();
  });

  test('on a volt-free call, has mains looked for before the call is read', async () => {
    const { page, close } = await phone();
    const folder = 'combi-volt-free';
    const { sequences, diagnosis } = SystemData.parse(
      JSON.parse(readFileSync(join(DIST, 'data/systems', `${folder}.json`), 'utf8')),
    );
    const { steps } = sequences.find(({ id }) => id === 'no-heating-hot-water-works')!;
    await page.goto(
      `${site.server.address}systems/${folder}/sequences/no-heating-hot-water-works/`,
    );
    expect(await page.locator('.no-faults').textContent()).toContain('Room stat off its backplate');
    const called = steps.flatMap(({ test, answers }, i) =>
      answers.some(({ answer }) => answer === 'no dc') &&
      diagnosis.tests.find(({ id }) => id === test)!.kind === 'live'
        ? [i + 1]
        : [],
    );
    expect(called).not.toEqual([]);
    for (const number of called)
      expect(await page.locator(`#step-${number}`).textContent()).toMatch(
        /prove each core to earth with the two-pole tester; mains there stops the work/,
      );
    await close();
  });

  test('stands on paper as lines, with its ends', async () => {
    const { page, close } = await phone();
    await page.goto(site.server.address + PATH);
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.sequence-lines li').filter({ visible: true }).count()).toBe(
      sequence.steps.length,
    );
    expect(await page.locator('.end').filter({ visible: true }).count()).toBe(sequence.ends.length);
    expect(await page.locator('.way-on').filter({ visible: true }).count()).toBe(0);
    await close();
  });
});

/** Every system with its complaint of the most steps. */
const longest = readdirSync(join(DIST, 'data/systems'))
  .filter((file) => file.endsWith('.json'))
  .flatMap((file) => {
    const { id, sequences } = SystemData.parse(
      JSON.parse(readFileSync(join(DIST, 'data/systems', file), 'utf8')),
    );
    const [most] = sequences
      .filter(
        ({ id: start, history }) =>
          history === 'worked until now' && start !== 'anything' && start !== 'nothing-seen',
      )
      .toSorted((a, b) => b.steps.length - a.steps.length);
    return most && id === file.replace('.json', '') ? [{ id, sequence: most }] : [];
  });

describe('where scripts run', () => {
  const scripted = (more: BrowserContextOptions = {}) =>
    openTab(site.chromium.browser, {
      viewport: PHONE,
      serviceWorkers: 'block',
      bypassCSP: true,
      ...more,
    });
  const count = (page: Page) => page.evaluate(() => document.querySelectorAll('.one').length);

  test('the steps are built when they are asked for, and an address leads to each', async () => {
    const { page, close } = await scripted();
    await page.goto(site.server.address + PATH);
    expect([await shown(page), await count(page)]).toEqual([[], 0]);
    await page.locator('a[href="#all-steps"]').click();
    await expect.poll(() => count(page)).toBe(partsOf(sequence));
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('step-1-title');
    // What was asked for is not offered again.
    expect(await page.locator('.to-read').isVisible()).toBe(false);
    await page.locator('#step-1 .answer-links a').first().click();
    await expect.poll(() => page.url()).toMatch(/#(step-2|end-\d+)$/);
    await page.goto('about:blank');
    await page.goto(`${site.server.address}${PATH}#end-1`);
    await isAt(page, 'end-1');
    // Keys go on from there.
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.closest('.one')?.id)).toBe('end-1');
    await page.locator('#end-1 a[href="#otherwise"]').click();
    await isAt(page, 'otherwise');
    await close();
  });

  test('an address that names no step leaves the page as it is', async () => {
    const { page, complaints, close } = await scripted();
    for (const hash of ['#step-9999', '#%', '#all']) {
      await page.goto('about:blank');
      await page.goto(site.server.address + PATH + hash);
      expect([hash, await count(page)]).toEqual([hash, 0]);
    }
    expect(complaints.console.filter((line) => !/Service Worker/.test(line))).toEqual([]);
    await close();
  });

  test('on paper stand all lines and ends, and afterwards what stood before', async () => {
    const { page, close } = await scripted();
    await page.goto(site.server.address + PATH);
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.sequence-lines li').filter({ visible: true }).count()).toBe(
      sequence.steps.length,
    );
    expect(await page.locator('.end').filter({ visible: true }).count()).toBe(sequence.ends.length);
    await page.emulateMedia({ media: 'screen' });
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    expect(await count(page)).toBe(0);
    await close();
  });

  test('while it is walked, paper has it all the same; a record is printed alone', async () => {
    const { page, close } = await scripted();
    await page.goto(site.server.address + PATH);
    await page.locator('a[href="#new"]').click();
    await page.waitForSelector('.panel[data-test]');
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.sequence-lines').isVisible()).toBe(true);
    expect(await page.locator('.job-desk').isVisible()).toBe(false);
    await page.emulateMedia({ media: 'screen' });
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    await page.locator('.job-tabs >> text=Record').click();
    await page.waitForSelector('.job-sheet');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.job-sheet').isVisible()).toBe(true);
    expect(await page.locator('.sequence-page').isVisible()).toBe(false);
    await close();
  });

  test.each(longest)('$id: all steps when asked, and axe finds nothing in any', async (one) => {
    const { page, close } = await scripted({ colorScheme: 'light' });
    const { id, sequence } = one;
    await page.goto(`${site.server.address}systems/${id}/sequences/${sequence.id}/`);
    await page.locator('a[href="#all-steps"]').click();
    await expect.poll(async () => (await shown(page)).length).toBe(partsOf(sequence));
    // One is open, of the others stands a heading that opens it.
    const open = page.locator('.one > .aside-links').filter({ visible: true });
    expect(await open.count()).toBe(1);
    await page.locator('#end-1 > h2 > a').click();
    await expect.poll(() => page.locator('#end-1 > .aside-links').isVisible()).toBe(true);
    expect(await open.count()).toBe(1);
    await page.evaluate(() => document.querySelector('.tree')!.classList.remove('folded'));
    await unfold(page);
    expect(await violations(page)).toEqual([]);
    await close();
  });
});
