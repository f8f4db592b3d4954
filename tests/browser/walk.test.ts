import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { circuitOf } from './call-circuits.ts';
import { DESK, launch, openTab, serveFolder, type TestBrowser } from './harness.ts';
import { openSoFar, see, turnTo } from './job-steps.ts';
import { IN_REACH, walkPanel } from './panel-walk.ts';
import { textOfPages } from './pdf-text.ts';
import { isSound, offlinePhone } from './phone.ts';
import { outOfView, tapInView } from './thumb.ts';

/**
 * Published sequences, each with a fault that it is for: known by looks; by a fuse, which no look
 * tells; by either of two signs; by nothing that can be seen; and since somebody worked on it.
 */
const WALKS = [
  {
    sequence: 'no-heating-hot-water-works',
    system: 'combi-two-wire',
    history: 'worked until now',
    fault: 'B1/contact:open',
  },
  {
    sequence: 'fuse-blows',
    system: 'combi-two-wire',
    history: 'worked until now',
    fault: 'W2.BN-BU:short',
  },
  {
    sequence: 'valve-does-not-open',
    system: 'heat-only-two-port',
    history: 'worked until now',
    fault: 'Q3/motor:dead',
  },
  {
    sequence: 'nothing-seen',
    system: 'combi-two-wire',
    history: 'worked until now',
    fault: 'B1/contact:burnt',
  },
  {
    sequence: 'no-hot-water-heating-works',
    system: 'heat-only-mid-position',
    history: 'since work',
    fault: 'W5.BK@1:loose',
  },
] as const;

const pathOf = ({ sequence, system, history }: (typeof WALKS)[number]) =>
  `systems/${system}/sequences/${sequence}/${history === 'since work' ? 'since-work/' : ''}`;
const PATH = pathOf(WALKS[0]);
const BEGIN = '.way-on[href="#new"]';
const VISIT = /\/#[0-9a-f-]{36}$/;

let chromium: TestBrowser;
let tab: Awaited<ReturnType<typeof offlinePhone>>;
let page: Page;
beforeAll(async () => {
  chromium = await launch();
  tab = await offlinePhone(chromium, { colorScheme: 'light' });
  ({ page } = tab);
});
afterAll(() => chromium.close());

/** Opens the page of a sequence, as a fresh page, and begins by a tap. */
async function begin(path = PATH): Promise<void> {
  await page.goto('about:blank');
  await page.goto(tab.site + path);
  await tapInView(page, BEGIN);
  await page.waitForSelector('.panel[aria-busy="false"]');
}

/** Gives the answer whose key says so, with its caution ticked first. */
async function answer(words: string): Promise<void> {
  const act = await page.locator('.panel').getAttribute('data-test');
  const ready = page.locator('.panel > .main-act');
  if (await ready.count()) await tapInView(page, '.panel > .main-act');
  await tapInView(page, `.panel .answer-key:has(b:text-is("${words}"))`);
  await another(act);
}

/** Waits until another act than this one is asked. */
const another = (act: string | null) =>
  page.waitForFunction((before) => {
    const panel = document.querySelector('.panel[aria-busy="false"], .panel.found');
    return panel !== null && panel.getAttribute('data-test') !== before;
  }, act);

describe('a published sequence on its own page, offline, one thumb', () => {
  test.each(WALKS)('$system, $sequence, $history: $fault', async (walked) => {
    const circuit = circuitOf(walked);
    await begin(pathOf(walked));
    expect(page.url()).toMatch(VISIT);
    const way = circuit.wayOn(walked.sequence);
    const asked = await walkPanel(page, circuit);
    // It asks what the page prints, up to where it is found or the order ends.
    expect(way.length).toBeGreaterThan(1);
    const kept = Math.min(way.length, asked.length);
    expect(asked.slice(0, kept)).toEqual(way.slice(0, kept));
    // A short that looks like another to every probe is among what is left, each with its repair.
    const found = '.panel.found .next-what';
    if (!(await page.locator(found).count()))
      await tapInView(page, `.left-list button:has-text("${circuit.titlesAfter(asked)[0]}")`);
    expect(circuit.titlesAfter(asked)).toContain(await page.locator(found).textContent());
    await isSound(page);
    await tapInView(page, '.panel.found > .main-act');
    await page.waitForSelector('#record-title');
  });

  test('what comes and goes is walked on its own page, and printed where it stands', async () => {
    await begin('systems/combi-two-wire/comes-and-goes/');
    expect(page.url()).toMatch(VISIT);
    expect(await page.locator('.sequence-page').isVisible()).toBe(false);
    // The first act is to stay with it in the mode that the page begins with.
    const first = page.locator('.chance-steps summary h2').first();
    const [mode = ''] = (await first.textContent())!.split(':');
    expect(await page.locator('.panel').textContent()).toContain(mode);
    const visit = page.url().slice(page.url().indexOf('#'));
    await page.goto(`${tab.site}job/${visit}`);
    await page.waitForSelector('.panel[aria-busy="false"]');
    const pdf = await page.pdf();
    // Lines follow one another without a space.
    const text = textOfPages(pdf).join('').replaceAll(/\s/g, '');
    expect(text).toMatch(/^NextactLook:/);
    expect(text).toContain('Combiboilerwithtwo-wireroomstat');
    expect(text).toContain('stillopen');
    // On the screen it stands as it stood.
    expect(await page.locator('.job-sheet').count()).toBe(0);
    expect(await page.locator('.panel').isVisible()).toBe(true);
  });

  test('is one visit like any other: the way back reads the page, the way on goes on, home lists it', async () => {
    await begin();
    expect(await page.locator('.sequence-page').isVisible()).toBe(false);
    const visit = page.url();
    const asked = await page.locator('.panel').getAttribute('data-test');
    await page.goBack();
    await page.waitForSelector(`${BEGIN}:visible`);
    expect(await page.locator('.panel').count()).toBe(0);
    await isSound(page);
    await tapInView(page, '.job-desk a:has-text("Go on with the job begun here")');
    await page.waitForSelector(`.panel[data-test="${asked}"][aria-busy="false"]`);
    expect(page.url()).toBe(visit);
    await page.goBack();
    await page.waitForSelector(`${BEGIN}:visible`);
    await page.goForward();
    await page.waitForSelector(`.panel[data-test="${asked}"][aria-busy="false"]`);
    // Loaded anew it stands where it stood.
    await answer('Control shows a call');
    const second = await page.locator('.panel').getAttribute('data-test');
    await page.waitForTimeout(300);
    await page.reload();
    await page.waitForSelector(`.panel[data-test="${second}"][aria-busy="false"]`);
    expect(page.url()).toBe(visit);
    await page.goto(tab.site);
    await page
      .locator(`a[href$="/job/#${visit.split('#')[1]}"]`)
      .first()
      .tap();
    await page.waitForSelector(`.panel[data-test="${second}"]`);
  });

  test('the expected value is told after the answer, and before it only where asked for', async () => {
    await begin();
    expect(await page.locator('.panel .due').count()).toBe(0);
    await tapInView(page, '.panel-more >> text=Normal here?');
    expect(await page.locator('.panel .due').count()).toBe(1);
    await answer('Control shows a call');
    expect(await page.locator('.last-line .said').textContent()).toMatch(/^As it should be/);
  });

  test('what cannot be done is gone round, and undo says what it takes back', async () => {
    await begin();
    const first = await page.locator('.panel').getAttribute('data-test');
    await tapInView(page, '.panel-more >> text=Can’t do this');
    await isSound(page);
    expect(await outOfView(page, IN_REACH)).toEqual([]);
    await tapInView(page, '.panel .answer-key:has-text("Can’t tell from here")');
    await another(first);
    expect(await page.locator('.panel .left-out').textContent()).toMatch(/^One thing left out/);
    const round = await page.locator('.panel').getAttribute('data-test');
    const undo = page.locator('.last-line >> text=Undo');
    expect(await undo.textContent()).toMatch(/left out|cannot|can’t/i);
    await undo.tap();
    await another(round);
    expect(await page.locator('.panel').getAttribute('data-test')).toBe(first);
    await answer('Control shows no call');
    expect(await undo.textContent()).toMatch(/control shows/i);
    await undo.tap();
    await page.waitForSelector(`.panel[data-test="${first}"][aria-busy="false"]`);
  });

  test('what is known stands above it; a look entered in another order leads off, and is planned on', async () => {
    await begin();
    const first = await page.locator('.panel').getAttribute('data-test');
    await openSoFar(page);
    expect(await page.locator('.known li').count()).toBe(2);
    await isSound(page);
    await turnTo(page, 'Seen');
    await see(page, 'Heating call', 'Control shows no call');
    await turnTo(page, 'Next');
    await another(first);
    expect(await page.locator('.panel').getAttribute('data-test')).not.toBe(null);
  });

  test.each([
    [1, 'As the customer says: not looked at yet', 'Q1 fuse'],
    [3, 'As it was begun: not looked at yet', 'B1'],
  ])('what it begins with says on whose word it stands', async (at, words, subject) => {
    await begin(pathOf(WALKS[at]!));
    await turnTo(page, 'Readings');
    const first = page.locator('.entry').first();
    expect(await first.locator('.told').textContent()).toBe(words);
    expect(await first.locator('.point').textContent()).toContain(subject);
    await isSound(page);
    await turnTo(page, 'Record');
    // Nobody has taken a reading yet.
    expect(await page.locator('.job-sheet .record-table').count()).toBe(0);
  });

  test('a visit that is not kept here says so, and the page stands to be read', async () => {
    await page.goto('about:blank');
    await page.goto(`${tab.site}${PATH}#00000000-0000-4000-8000-000000000000`);
    await page.waitForSelector('.job-desk .said');
    expect(await page.locator('.job-desk .said').textContent()).toBe(
      'That job is not kept in this browser.',
    );
    expect(await page.locator('.sequence-page h1').isVisible()).toBe(true);
    await isSound(page);
  });

  test('says nothing on the console', () => {
    expect(tab.said).toEqual([]);
  });
});

describe('at a desk', () => {
  test('by the keyboard alone, from the page to what is found', async () => {
    const server = await serveFolder();
    const own = await openTab(chromium.browser, { viewport: DESK });
    const keys = own.page;
    const tabTo = async (is: (element: Element) => boolean) => {
      for (let i = 0; i < 60; i++) {
        await keys.keyboard.press('Tab');
        if (await keys.evaluate(`(${is})(document.activeElement)`)) return;
      }
      throw new Error(`no key leads to ${is}`);
    };
    await keys.goto(server.address + PATH);
    await tabTo((element) => element.matches('[href="#new"]'));
    await keys.keyboard.press('Enter');
    await keys.waitForSelector('.panel[aria-busy="false"]');
    // The act that came is read out: keys go on from its head.
    expect(await keys.evaluate(() => document.activeElement?.id)).toBe('next-title');
    const visit = keys.url();
    // The way past the head leaves the visit open.
    await keys.locator('.skip').focus();
    await keys.keyboard.press('Enter');
    await expect.poll(() => keys.url()).toBe(visit);
    expect(await keys.locator('.panel').count()).toBe(1);
    for (let acts = 0; acts < 15 && !(await keys.locator('.panel.found').count()); acts++) {
      const act = await keys.locator('.panel').getAttribute('data-test');
      if (await keys.locator('.panel > .main-act').count()) {
        await tabTo((element) => element.matches('.panel > .main-act'));
        await keys.keyboard.press('Enter');
      }
      await tabTo((element) => element.matches('.panel .answer-key'));
      await keys.keyboard.press('Enter');
      await keys.waitForFunction(
        (before) =>
          document.querySelector('.panel.found') ||
          (document.querySelector('.panel[aria-busy="false"]') &&
            document.querySelector('.panel')?.getAttribute('data-test') !== before),
        act,
      );
    }
    await keys.waitForSelector('.panel.found');
    expect(own.complaints).toEqual({ console: [], foreign: [] });
    await own.close();
    await server.stop();
  });

  test('where the panel cannot be loaded the page says so, and all steps stand to be read', async () => {
    const server = await serveFolder();
    const own = await openTab(chromium.browser, { viewport: DESK, serviceWorkers: 'block' });
    await own.page.goto(server.address + PATH);
    await own.page.route(/walk\.[^/]*\.js$/, (route) => route.abort());
    await own.page.click(BEGIN);
    await own.page.waitForSelector('#step-1');
    expect(await own.page.locator('#walk-said').textContent()).toMatch(/could not be loaded/);
    await own.close();
    await server.stop();
  });
});
