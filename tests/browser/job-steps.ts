import type { Page } from 'playwright-core';

/** Turns to one of a job's four pages. */
export const turnTo = (page: Page, name: string) => page.tap(`.job-tabs >> text=${name}`);

/** Begins a job on a page that asks for it: no complaint named, and it worked until now. */
export async function beginJob(page: Page): Promise<void> {
  const none = page.locator('text=None of these');
  await page.waitForSelector('.answer-key');
  if (await none.count()) await none.click();
  await page.click('text=It worked until now');
}

/** Says what is seen of an outcome in a mode. */
export async function see(page: Page, mode: string, words: string): Promise<void> {
  const block = page.locator('.mode-block', { has: page.locator(`summary b:text-is("${mode}")`) });
  if ((await block.getAttribute('open')) === null) await block.locator('summary').tap();
  await block.locator('.three label', { hasText: words }).first().tap();
}

/** Picks a terminal from the list, ticks what is asked, and gives the answer. */
export async function read(
  page: Page,
  item: string,
  terminal: string,
  answer: string,
): Promise<void> {
  await turnTo(page, 'Readings');
  await page.tap('text=Take a reading');
  await pick(page, item, terminal);
  await answerWith(page, answer);
}

/** Picks a terminal from the list of items. */
export async function pick(page: Page, item: string, terminal: string): Promise<void> {
  const block = page.locator('.item-block', {
    has: page.locator(`summary .point:text-is("${item}")`),
  });
  await block.locator('summary').tap();
  await block.locator('button', { has: page.locator(`b:text-is("${terminal}")`) }).tap();
}

/** Gives an answer and waits for the ranking. */
export async function answerWith(page: Page, answer: string): Promise<void> {
  await giveAnswer(page, answer);
  await page.waitForSelector('.panel[aria-busy="false"], .panel.found');
}

/** Ticks what safety asks, and taps an answer. */
export async function giveAnswer(page: Page, answer: string): Promise<void> {
  for (const tick of await page.locator('.safety .tick input').all())
    if (!(await tick.isChecked())) await tick.tap();
  await page.locator('.answers .answer-key', { hasText: answer }).tap();
}

/** Opens what it has come to, above the act: causes and what is known. */
export async function openSoFar(page: Page): Promise<void> {
  await page.waitForSelector('.so-far');
  const folded = page.locator('.so-far:not([open]) > summary');
  if (await folded.count()) await folded.click();
}
