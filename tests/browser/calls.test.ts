import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { HISTORY_WORDS } from '../../src/diagnosis/index.ts';
import type { JobData } from '../../src/job/job-data.ts';
import { DIST } from '../support/site-folder.ts';
import { CALLS, type Call, circuitOf } from './call-circuits.ts';
import { launch, type TestBrowser } from './harness.ts';
import { walkPanel } from './panel-walk.ts';
import { isSound, offlinePhone } from './phone.ts';
import { outOfView, tapInView } from './thumb.ts';

/**
 * Most taps from the home page to the first act of the panel, on complaint and history; those
 * that say which system it is are counted apart, for they hang on how many there are.
 */
const MOST_TAPS = 3;
const MOST_SYSTEM_TAPS = 5;

/** What the first screen holds once it is found: what, how sure, what stays live, the repair, by whom. */
const FIRST_OF_FOUND = [
  '.found h2',
  '.found .certainty',
  '.found .next-what',
  '.found .caution',
  '.found .repair-words',
  '.found .by',
  '.found > .main-act',
].join(', ');

let chromium: TestBrowser;
let tab: Awaited<ReturnType<typeof offlinePhone>>;
let page: Page;
let site: string;
beforeAll(async () => {
  chromium = await launch();
  tab = await offlinePhone(chromium, { colorScheme: 'light' });
  ({ page, site } = tab);
});
afterAll(() => chromium.close());

/** Walks from the home page to the panel's first act, and counts the taps on the way. */
async function begin({ complaint, history, system }: Call): Promise<Taps> {
  const taps = { toAct: 0, system: 0 };
  await page.goto(site);
  const words = page.locator(`.complaints a[href$="/symptoms/${complaint}/"]`);
  if (!(await words.count())) {
    await page.locator('.complaints a', { hasText: 'All complaints' }).tap();
    taps.toAct += 1;
  }
  await words.tap();
  taps.toAct += 1;
  // The first thing to do is said at once, covers on, while one asks since when.
  await page.waitForSelector('.symptom .look-first');
  expect(await outOfView(page, '.look-first p')).toEqual([]);
  await tapInView(
    page,
    `[aria-labelledby="how-long"] a[href$="history=${history.replaceAll(' ', '-')}"]`,
  );
  taps.toAct += 1;
  // What was said is not asked again, and stands there to be seen.
  await page.waitForSelector('.choose-system');
  expect(await page.locator('.since-line b').textContent()).toBe(`${HISTORY_WORDS[history]}.`);
  taps.system = await recognise(system);
  return taps;
}

interface Taps {
  /** On complaint and history: those that lead to the first act where the system is known. */
  readonly toAct: number;
  /** On what tells the systems apart, and on the system itself. */
  readonly system: number;
}

/** Says what is seen of a system until it can be picked. @returns taps. */
async function recognise(system: string): Promise<number> {
  const seen = (await page.locator(`[data-system="${system}"]`).getAttribute('data-answers'))!;
  const labels = await page
    .locator('#job-questions [data-answer]')
    .evaluateAll((all) => all.map((one) => [one.textContent.trim(), one.dataset.answer!] as const));
  const isSeen = new Set(
    labels.flatMap(([label, id]) => (seen.split(' ').includes(id) ? [label] : [])),
  );
  const own = page.locator('.choose-system > .pick-list button', {
    has: page.locator(`strong:text-is("${titleOf(system)}")`),
  });
  for (let taps = 1; ; taps++) {
    expect(taps, 'questions without an end').toBeLessThan(12);
    if (await own.count()) {
      await own.tap();
      return taps;
    }
    const keys = await page.locator('.choose-system .asked-one .answer-key').allTextContents();
    const key = keys.find((text) => isSeen.has(text.trim())) ?? 'Don’t know';
    await tapInView(page, `.choose-system .asked-one .answer-key:has(b:text-is("${key.trim()}"))`);
  }
}

describe('a call, offline, one thumb, from the home page', () => {
  test.each(CALLS)('$complaint: $fault in $system', async (call) => {
    const circuit = circuitOf(call);
    const taps = await begin(call);
    expect(taps.toAct).toBeLessThanOrEqual(MOST_TAPS);
    expect(taps.system).toBeLessThanOrEqual(MOST_SYSTEM_TAPS);
    const asked = await walkPanel(page, circuit);
    expect(await page.locator('.panel.found h2').textContent()).toBe('Found');
    const cause = await page.locator('.panel.found .next-what').textContent();
    expect(circuit.titlesAfter(asked)).toContain(cause);
    expect(await outOfView(page, FIRST_OF_FOUND)).toEqual([]);
    // The drawing stands as the cause leaves it, and shows up to where it is live.
    await page.waitForSelector('.panel.found .conductor[data-live="*"]');
    expect(await page.locator('.panel.found [data-closed="*"]').count()).toBeGreaterThan(0);
    await isSound(page);
    // It went by a printed order as far as it went.
    const kept = circuit.printed.map((ids) => asked.findIndex((id, i) => ids[i] !== id));
    expect(kept.some((at, i) => at === -1 || at >= circuit.printed[i]!.length)).toBe(true);
    await tapInView(page, '.panel.found > .main-act');
    await page.waitForSelector('#record-title');
  });

  test('what is only set otherwise is found with nothing to isolate', async () => {
    const call = {
      complaint: 'no-heating-hot-water-works',
      history: 'worked until now',
      system: 'combi-two-wire',
      fault: 'B1:calling off',
    } as const;
    const circuit = circuitOf(call);
    await begin(call);
    const asked = await walkPanel(page, circuit);
    expect(circuit.titlesAfter(asked)).toContain(
      await page.locator('.panel.found .next-what').textContent(),
    );
    expect(await page.locator('.found .repair-words').textContent()).toMatch(/^Set the room stat/);
    // A dial is turned with every cover on. The pages of the site say it once at their foot.
    expect(await page.locator('.panel.found').textContent()).not.toMatch(/isolate|prove dead/i);
    expect(await outOfView(page, FIRST_OF_FOUND)).toEqual([]);
  });

  test('says nothing on the console', () => {
    expect(tab.said).toEqual([]);
  });
});

const titleOf = (system: string): string =>
  (JSON.parse(readFileSync(join(DIST, `job/${system}.json`), 'utf8')) as JobData).system.title;
