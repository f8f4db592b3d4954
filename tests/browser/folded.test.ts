import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { loadEntries } from '../../src/entries/index.ts';
import { DESK, openTab, PHONE } from './harness.ts';
import { siteInBrowser } from './site.ts';

/** What is folded on a phone: one part is open at a time, and nothing of it is lost elsewhere. */
const site = siteInBrowser();
const PROCEDURE = 'procedures/dead-tests/';
const SHEET = 'systems/heat-only-condensate-pump/replace/x1-wiring-centre-24/';

const { procedures } = loadEntries(
  fileURLToPath(new URL('../../content', import.meta.url)),
).entries;

const open = async (path: string, options: Parameters<typeof openTab>[1] = {}) => {
  const tab = await openTab(site.chromium.browser, { serviceWorkers: 'block', ...options });
  await tab.page.goto(site.server.address + path);
  return tab;
};

test.each([true, false])(
  'a step’s address opens it and no other, its caution before it, scripts %s',
  async (javaScriptEnabled) => {
    const { page, close } = await open(`${PROCEDURE}#step-4`, { javaScriptEnabled });
    const opened = page.locator('.one-open details[open]');
    expect(await opened.count()).toBe(1);
    expect(await page.locator('details[open] > #step-4').isVisible()).toBe(true);
    const caution = (await opened.locator('.caution').boundingBox())!;
    const act = (await opened.locator('.act').boundingBox())!;
    expect(caution.y + caution.height).toBeLessThanOrEqual(act.y);
    await page.locator('.one-open summary').nth(6).click();
    expect(await page.locator('details[open] > #step-7').count()).toBe(1);
    expect(await opened.count()).toBe(1);
    await close();
  },
);

test('isolating is read whole, each step with its caution', async () => {
  const { page, close } = await open('procedures/safe-isolation/');
  const steps = await page.locator('.steps > li').count();
  expect(await page.locator('.steps .act').filter({ visible: true }).count()).toBe(steps);
  expect(await page.locator('.steps .caution').filter({ visible: true }).count()).toBe(steps);
  expect(await page.locator('.why').filter({ visible: true }).count()).toBe(0);
  await page.locator('.reasons input').check();
  expect(await page.locator('.why').filter({ visible: true }).count()).toBeGreaterThan(5);
  await close();
});

test('a step that waits says its caution whole, over its act', async () => {
  for (const [id, { data }] of procedures) {
    const { page, close } = await open(`procedures/${id}/`);
    const read = await page.locator('.steps .caution').filter({ visible: true }).allInnerTexts();
    const said = data.steps.flatMap(({ caution }) => caution ?? []);
    expect([id, read.map((line) => line.replace(/\s+/g, ' ').trim())]).toEqual([
      id,
      said.map((line) => `Caution ${line}`),
    ]);
    expect(await page.locator('.steps .caution ~ .act').filter({ visible: true }).count()).toBe(
      said.length,
    );
    await close();
  }
});

test.each([
  [PHONE, 'screen'],
  [DESK, 'screen'],
  [PHONE, 'print'],
] as const)(
  'every sentence of isolating’s cautions is read with no tap, %o on %s',
  async (viewport, media) => {
    const { data } = procedures.get('safe-isolation')!;
    const { page, close } = await open('procedures/safe-isolation/', { viewport });
    await page.emulateMedia({ media });
    const boxes = await page.locator('.cautions').allInnerTexts();
    const read = boxes.join(' ').replace(/\s+/g, ' ');
    expect(data.cautions.filter((line) => !read.includes(line))).toEqual([]);
    // Each is at least begun before the first act.
    expect(await page.locator('.procedure > .cautions li').count()).toBe(data.cautions.length);
    await close();
  },
);

test('systems are narrowed by a folded answer, which is unfolded where it still narrows', async () => {
  const { page, close } = await open('systems/');
  const shown = page.locator('.system-entry').filter({ visible: true });
  const all = await shown.count();
  const answer = page.locator('.more-facets .chip', { hasText: 'Mid-position valve' });
  expect(await answer.isVisible()).toBe(false);
  await page.locator('.more-facets > summary').click();
  await answer.click();
  const few = await shown.count();
  expect(few).toBeGreaterThan(0);
  expect(few).toBeLessThan(all);
  await page.reload();
  expect(await shown.count()).toBe(few);
  expect(await answer.isVisible()).toBe(true);
  await close();
});

test('on a desk and on paper every step, core and mode stands open', async () => {
  for (const [viewport, media] of [
    [DESK, 'screen'],
    [PHONE, 'print'],
  ] as const) {
    const { page, close } = await open(PROCEDURE, { viewport });
    await page.emulateMedia({ media });
    const expected = page.locator('.steps .expect');
    expect(await expected.filter({ visible: true }).count()).toBe(await expected.count());
    await page.goto(site.server.address + SHEET);
    await page.emulateMedia({ media });
    const parts = page.locator('.core-steps tbody tr, .read-list li');
    expect(await parts.count()).toBeGreaterThan(60);
    expect(await parts.filter({ visible: true }).count()).toBe(await parts.count());
    await close();
  }
});

test('on a phone the cores of one cable stand open, and the table is copied whole', async () => {
  const { page, close } = await open(SHEET, { permissions: ['clipboard-read', 'clipboard-write'] });
  const rows = page.locator('.core-steps tr[data-core]');
  const tall = () =>
    rows.evaluateAll((all) => all.filter((row) => row.getBoundingClientRect().height > 1).length);
  expect(await tall()).toBe(3);
  await page.locator('.one-cable', { hasText: 'W3' }).click();
  expect(await tall()).toBe(5);
  await page.locator('.copy-button').first().click();
  const copied = await page.evaluate(() => navigator.clipboard.readText());
  expect(copied.split('\n').length).toBeGreaterThanOrEqual(await rows.count());
  await close();
});
