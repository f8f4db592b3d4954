import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { JobData } from '../../src/job/job-data.ts';
import { DIST } from '../support/site-folder.ts';
import { CALLS, circuitOf } from './call-circuits.ts';
import { launch, type TestBrowser } from './harness.ts';
import { isSound, offlinePhone } from './phone.ts';
import { outOfView, tapInView } from './thumb.ts';

/** Most acts that any of these calls takes. */
const MOST_ACTS = 15;

/** All that may be tapped at an act, and what is known above it. */
const IN_REACH = '.panel button, .panel summary, .last-line button, .so-far > summary';

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

describe('a call, offline, one thumb', () => {
  test.each(CALLS)('$complaint: $fault in $system', async (call) => {
    const circuit = circuitOf(call);
    await page.goto(`${site}job/#new`);
    // One tap from the question to the first thing to do: look, while asking since when.
    await complain(page, call.complaint);
    await page.waitForSelector('.look-first, .caution');
    await since(page, call.history);
    await page.tap('.choose-system .fold > summary');
    await page.fill('#system-query', titleOf(call.system));
    await page
      .locator('.choose-system .fold .pick-list button', {
        has: page.locator(`strong:text-is("${titleOf(call.system)}")`),
      })
      .tap();

    const asked: string[] = [];
    const ticked = new Set<string>();
    for (;;) {
      await page.waitForSelector('.panel[aria-busy="false"], .panel.found');
      if (await page.locator('.panel.found').count()) break;
      const id = (await page.locator('.panel').getAttribute('data-test'))!;
      expect(asked.length, `${asked.join(', ')} and still not found`).toBeLessThan(MOST_ACTS);
      asked.push(id);
      if (asked.length === 1) await isSound(page);
      const answer = circuit.answerTo(id);
      const panel = page.locator('.panel');
      let said = (await panel.textContent())!;
      // The caution, where there is one, is its first tap; the answer the second.
      const ready = '.panel > .main-act';
      expect(await outOfView(page, IN_REACH), id).toEqual([]);
      if (await page.locator(ready).count()) await tapInView(page, ready);
      // Ticked once, the caution of isolating holds for what follows there; all others stand again.
      said += await panel.textContent();
      for (const words of circuit.saidOf(id).filter((one) => !ticked.has(one)))
        expect(said.toLowerCase()).toContain(words.toLowerCase());
      for (const words of ['Isolate and prove dead', 'Isolate, lock off']) ticked.add(words);
      expect(await outOfView(page, IN_REACH), id).toEqual([]);
      const at = circuit.positionAt(id);
      const key = at ? `[data-outcome="${at}"]` : `[data-answer="${answer}"]`;
      await tapInView(page, `.answer-key${key}`);
      await page.waitForFunction(
        (before) =>
          document.querySelector('.panel.found, .panel:not([data-test])') ||
          document.querySelector('.panel')?.getAttribute('data-test') !== before,
        id,
      );
    }
    expect(await page.locator('.panel.found h2').textContent()).toBe('Found');
    const cause = await page.locator('.panel.found .next-what').textContent();
    expect(circuit.titlesAfter(asked)).toContain(cause);
    // The drawing stands as the cause leaves it, and shows up to where it is live.
    await page.locator('.panel.found .fold > summary').tap();
    await page.waitForSelector('.panel.found .conductor[data-live="*"]');
    expect(await page.locator('.panel.found [data-closed="*"]').count()).toBeGreaterThan(0);
    await isSound(page);
    // It went by a printed order as far as it went.
    const kept = circuit.printed.map((ids) => asked.findIndex((id, i) => ids[i] !== id));
    expect(kept.some((at, i) => at === -1 || at >= circuit.printed[i]!.length)).toBe(true);
    await page.locator('.panel.found > .main-act').tap();
    await page.waitForSelector('#record-title');
  });

  test('says nothing on the console', () => {
    expect(tab.said).toEqual([]);
  });
});

const titleOf = (system: string): string =>
  (JSON.parse(readFileSync(join(DIST, `job/${system}.json`), 'utf8')) as JobData).system.title;

/** Names the complaint: among the commonest, or under the rest. */
async function complain(on: Page, id: string): Promise<void> {
  const words = await on.locator(`[data-complaint="${id}"] > strong`).textContent();
  const key = on.locator('.answer-key', { has: on.locator(`b:text-is("${words}")`) });
  await key.waitFor({ state: 'attached' });
  if (!(await key.isVisible())) await on.tap('.fold > summary');
  await key.tap();
}

const SINCE = {
  'worked until now': 'It worked until now',
  'since work': 'somebody worked on it',
} as const;

const since = (on: Page, history: keyof typeof SINCE) =>
  on.tap(`.answer-key:has-text("${SINCE[history]}")`);
