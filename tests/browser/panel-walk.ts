import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { circuitOf } from './call-circuits.ts';
import { isSound } from './phone.ts';
import { outOfView, tapInView } from './thumb.ts';

/** Most acts that any of these calls takes. */
const MOST_ACTS = 15;

/** All that may be tapped at an act, and what is known above it. */
export const IN_REACH = '.panel button, .panel summary, .last-line button, .so-far > summary';

/** Found, or no test tells more: nothing is asked. */
const AT_END = '.panel:not([aria-busy])';

/** Answers what the panel asks as the faulty circuit would, until it asks nothing. @returns what it asked. */
export async function walkPanel(
  page: Page,
  circuit: ReturnType<typeof circuitOf>,
): Promise<string[]> {
  const asked: string[] = [];
  const ticked = new Set<string>();
  for (;;) {
    await page.waitForSelector(`.panel[aria-busy="false"], ${AT_END}`);
    if (await page.locator(AT_END).count()) {
      await sayFound(page, circuit.titlesAfter(asked));
      return asked;
    }
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
    for (const words of ['prove dead; then restore', 'Isolate, lock off']) ticked.add(words);
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
}

/** Says what was found in an open box, where that is asked: under its cable and core, if many are listed. */
async function sayFound(page: Page, titles: readonly string[]): Promise<void> {
  if ((await page.locator('.what-found').count()) === 0) return;
  await isSound(page);
  const find = () => page.locator('.what-found li button').filter({ visible: true });
  const isThere = async () =>
    (await find().allTextContents()).some((title) => titles.includes(title));
  for (const cable of await page.locator('.what-found > details > summary').all()) {
    if (await isThere()) break;
    await open(cable);
    for (const core of await page.locator('.what-found > [open] > details > summary').all())
      if (!(await isThere())) await open(core);
  }
  expect(await find().allTextContents()).toEqual(
    expect.arrayContaining([expect.toBeOneOf([...titles])]),
  );
  for (const one of await find().all())
    if (titles.includes((await one.textContent())!)) {
      await one.tap();
      break;
    }
  await page.waitForSelector('.panel.found');
}

/** Opens what is folded, unless it is open, and waits for what it holds. */
async function open(summary: Locator): Promise<void> {
  const details = summary.locator('..');
  if ((await details.getAttribute('open')) === null) await summary.tap();
  await details.locator('> :not(summary)').first().waitFor();
}
