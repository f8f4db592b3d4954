import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { AXE, violations } from './accessibility.ts';
import { DESK, openTab, PHONE } from './harness.ts';
import { beginJob } from './job-steps.ts';
import { offlinePhone } from './phone.ts';
import { siteInBrowser } from './site.ts';

const site = siteInBrowser();
const LARGEST = 'systems/heat-only-condensate-pump/diagram/';
const TWO_WIRE = 'systems/combi-two-wire/diagram/';

/** Opens a diagram page on a phone, or as asked. */
async function diagram(path: string, options: Parameters<typeof openTab>[1] = {}) {
  const tab = await openTab(site.chromium.browser, {
    serviceWorkers: 'block',
    bypassCSP: true,
    ...options,
  });
  await tab.page.addInitScript(AXE);
  await tab.page.goto(`${site.server.address}${path}`);
  return tab;
}

const FINGER = { viewport: PHONE, hasTouch: true, isMobile: true };
const line = async (page: Page) => (await page.locator('#drawing-line').textContent())?.trim();
const sheet = (page: Page) => page.locator('#terminal-sheet');
/** A terminal in the layout that is shown. */
const terminal = (page: Page, id: string) => page.locator(`[data-terminal="${id}"]:visible`);
/** A conductor by the code at its end, where a finger finds it. */
const core = (page: Page, id: string) =>
  page.locator(`[data-conductor="${id}"]:visible .code`).first();
const lit = (page: Page, attribute: string) =>
  page.evaluate(
    (name) => [
      ...new Set([...document.querySelectorAll(`.lit[${name}]`)].map((e) => e.getAttribute(name)!)),
    ],
    attribute,
  );

describe('two layouts', () => {
  test('one stands on a phone, one on a desk and on paper', async () => {
    const { page, close } = await diagram(LARGEST, FINGER);
    const shown = () =>
      page.locator('svg.circuit:visible').evaluateAll((all) => all.map((e) => e.classList[1]));
    expect(await shown()).toEqual(['narrow']);
    await page.setViewportSize(DESK);
    expect(await shown()).toEqual(['landscape']);
    await page.emulateMedia({ media: 'print' });
    expect(await shown()).toEqual(['landscape']);
    await close();
  });

  test('on a wide desk letters are as large as drawn, 11 px', async () => {
    const { page, close } = await diagram(LARGEST, { viewport: { width: 1500, height: 900 } });
    const scale = await page
      .locator('svg.landscape')
      .evaluate(
        (svg: SVGSVGElement) => svg.getBoundingClientRect().width / svg.viewBox.baseVal.width,
      );
    expect(scale).toBeGreaterThanOrEqual(1);
    await close();
  });

  test('without scripts the drawing stands, and a terminal leads to its readings', async () => {
    const { page, close } = await diagram(TWO_WIRE, { ...FINGER, javaScriptEnabled: false });
    expect(await page.locator('.drawing-keys').isVisible()).toBe(false);
    await terminal(page, 'E1.L').click();
    await page.waitForURL(/readings\/#terminal-E1-L$/);
    await close();
  });
});

describe('full screen', () => {
  test('opens fitted to a phone; on the page letters keep their size and the page its width', async () => {
    const { page, close } = await diagram(LARGEST, FINGER);
    const over = () =>
      page.locator('.pan:visible').evaluate((pan) => pan.scrollWidth - pan.clientWidth);
    const width = () =>
      page.locator('svg.circuit:visible').evaluate((svg) => svg.getBoundingClientRect().width);
    const scale = () =>
      page
        .locator('svg.circuit:visible')
        .evaluate(
          (svg: SVGSVGElement) => svg.getBoundingClientRect().width / svg.viewBox.baseVal.width,
        );
    expect(await scale()).toBeCloseTo(1, 3);
    const wider = () => document.documentElement.scrollWidth > document.documentElement.clientWidth;
    expect(await page.evaluate(wider)).toBe(false);
    await page.getByRole('button', { name: 'Full screen' }).tap();
    expect(await over()).toBe(0);
    const frame = await page.locator('#drawing-dialog .pan').evaluate((pan) => pan.clientWidth);
    expect(await width()).toBeCloseTo(frame, 0);
    // From there fingers and keys enlarge it past what fits.
    for (let tap = 0; tap < 3; tap++) await page.getByRole('button', { name: 'Larger' }).tap();
    expect(await over()).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Fit' }).tap();
    expect(await over()).toBe(0);
    await close();
  });

  test('opens, enlarges by key and by two fingers, and closes by Escape', async () => {
    const { page, complaints, close } = await diagram(LARGEST, FINGER);
    const width = () =>
      page.locator('svg.circuit:visible').evaluate((svg) => svg.getBoundingClientRect().width);
    const before = await width();
    await page.getByRole('button', { name: 'Full screen' }).tap();
    const dialog = page.locator('#drawing-dialog');
    expect(await dialog.isVisible()).toBe(true);
    expect(await violations(page)).toEqual([]);
    const fitted = await width();
    await page.getByRole('button', { name: 'Larger' }).tap();
    const larger = await width();
    expect(larger).toBeGreaterThan(fitted);

    const client = await page.context().newCDPSession(page);
    const fingers = (type: 'touchStart' | 'touchMove' | 'touchEnd', apart: number) =>
      client.send('Input.dispatchTouchEvent', {
        type,
        touchPoints:
          type === 'touchEnd'
            ? []
            : [
                { x: 180 - apart, y: 400, id: 1 },
                { x: 180 + apart, y: 400, id: 2 },
              ],
      });
    await fingers('touchStart', 40);
    for (const apart of [50, 60, 70, 80]) await fingers('touchMove', apart);
    await fingers('touchEnd', 80);
    expect(await width()).toBeGreaterThan(larger * 1.3);

    await page.keyboard.press('Escape');
    expect(await dialog.isVisible()).toBe(false);
    expect(await width()).toBe(before);
    // The worker is blocked here for speed.
    expect(complaints.console.filter((said) => !/service worker/i.test(said))).toEqual([]);
    await close();
  });

  test('one finger moves it, and a move is no tap', async () => {
    const { page, close } = await diagram(LARGEST, { viewport: PHONE });
    await page.getByRole('button', { name: 'Full screen' }).click();
    const pan = page.locator('#drawing-dialog .pan');
    await page.mouse.move(150, 500);
    await page.mouse.down();
    await page.mouse.move(150, 300, { steps: 4 });
    await page.mouse.up();
    expect(await pan.evaluate((e) => e.scrollTop)).toBeGreaterThan(100);
    expect(await sheet(page).isVisible()).toBe(false);
    await page.getByRole('button', { name: 'Close' }).click();
    await page.locator('section > .pan').waitFor();
    expect(await page.locator('#drawing-dialog').isVisible()).toBe(false);
    await close();
  });
});

describe('a terminal', () => {
  test('opens a sheet over the drawing, and over the full screen', async () => {
    const { page, close } = await diagram(`${LARGEST}?mode=heating`, FINGER);
    await terminal(page, 'E1.SL').tap();
    const text = (await sheet(page).textContent()) ?? '';
    expect(text).toContain('SL at the boiler E1');
    expect(text).toContain('230 V live');
    expect(text).toContain('prove the tester');
    expect(await violations(page)).toEqual([]);
    expect(page.url()).toContain('/diagram/');
    const bottomOf = (rect: { y: number; height: number } | null) => rect!.y + rect!.height;
    const tapped = await terminal(page, 'E1.SL').boundingBox();
    expect(bottomOf(tapped)).toBeLessThanOrEqual((await sheet(page).boundingBox())!.y);
    await page.keyboard.press('Escape');
    expect(await sheet(page).isVisible()).toBe(false);

    await page.getByRole('button', { name: 'Full screen' }).tap();
    await terminal(page, 'F1.L').tap();
    expect(await sheet(page).isVisible()).toBe(true);
    expect(await sheet(page).textContent()).toContain('only an electrician');
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    expect(await page.locator('#drawing-dialog').isVisible()).toBe(true);
    await close();
  });

  test('says what stays live, and in what order one behind a cover is read', async () => {
    const { page, close } = await diagram(LARGEST, FINGER);
    await terminal(page, 'Q1.supply L').tap();
    expect(await sheet(page).locator('.sheet-always').textContent()).toContain('Always live');
    expect(await sheet(page).locator('.sheet-order').count()).toBe(0);
    await sheet(page).locator('[data-close]').tap();
    await terminal(page, 'X1.4').tap();
    expect(await sheet(page).locator('.sheet-always').count()).toBe(0);
    const steps = await sheet(page).locator('.sheet-order li').allTextContents();
    expect(steps[0]).toMatch(/^Isolate/);
    expect(steps.at(-1)).toMatch(/^Isolate again/);
    expect(await violations(page)).toEqual([]);
    await close();
    // While water is poured nothing is read: it is looked at only.
    const poured = await diagram(`${LARGEST}?mode=condensate-high`, FINGER);
    await terminal(poured.page, 'X1.4').tap();
    expect(await sheet(poured.page).locator('.sheet-order').count()).toBe(0);
    expect(await sheet(poured.page).locator('.sheet-caution').first().textContent()).toContain(
      'looked at only',
    );
    await poured.close();
  });

  test('says the reading of the mode and instrument chosen, all others folded', async () => {
    const { page, close } = await diagram(`${TWO_WIRE}?mode=standby`, { viewport: DESK });
    await terminal(page, 'E1.call return').click();
    expect(await sheet(page).locator('.sheet-reading b').textContent()).not.toContain('230');
    await page.keyboard.press('Escape');
    await page.locator('#mode-heating').check();
    await terminal(page, 'E1.call return').click();
    expect(await sheet(page).locator('.sheet-reading b').textContent()).toBe('230 V live');
    const rows = await sheet(page).locator('tbody tr').count();
    expect(rows).toBe(await page.locator('input[name="mode"]').count());
    await close();
  });

  test('leads into the job that is open, where one is', async () => {
    const { page, close } = await diagram(TWO_WIRE, FINGER);
    const way = page.getByRole('link', { name: 'Enter a reading in the open job' });
    await terminal(page, 'E1.L').tap();
    expect(await way.count()).toBe(0);
    const address = page.url();
    await page.goto(new URL('/job/?system=combi-two-wire', address).href);
    await beginJob(page);
    await page.locator('.panel[aria-busy="false"]').waitFor();
    const job = new URL(page.url()).hash;
    await page.goto(address);
    // Nothing is read at the consumer unit, and so nothing entered.
    await terminal(page, 'F1.L').tap();
    expect(await way.count()).toBe(0);
    await page.keyboard.press('Escape');
    await terminal(page, 'E1.call return').tap();
    await way.tap();
    const form = page.locator('.reading-form');
    await form.locator('.safety, .answers').first().waitFor();
    expect(await form.textContent()).toContain('Switched live back');
    expect(new URL(page.url()).hash).toBe(job);
    // Once left it does not come back.
    await form.getByRole('button', { name: 'Leave without entering' }).tap();
    const again = page.getByRole('button', { name: 'Take a reading' });
    await again.waitFor();
    // What is left is saved once it is painted.
    await page.waitForTimeout(200);
    await page.reload();
    await again.waitFor();
    expect(await form.count()).toBe(0);
    await close();
  });

  test('leads into no job of another system', async () => {
    const { page, close } = await diagram(TWO_WIRE, FINGER);
    await page.goto(new URL('/job/?system=combi-wireless', page.url()).href);
    await beginJob(page);
    await page.locator('.panel[aria-busy="false"]').waitFor();
    await page.goto(new URL(`/${TWO_WIRE}`, page.url()).href);
    await terminal(page, 'E1.L').tap();
    expect(await page.getByRole('link', { name: 'Enter a reading in the open job' }).count()).toBe(
      0,
    );
    await close();
  });

  test('answers with no signal', async () => {
    const { page, context, site: address } = await offlinePhone(site.chromium, {});
    await page.goto(`${address}${TWO_WIRE}`);
    await page.getByRole('button', { name: 'Full screen' }).tap();
    await terminal(page, 'E1.L').tap();
    expect(await sheet(page).textContent()).toContain('L at the boiler E1');
    await context.close();
  });
});

describe('what lights', () => {
  test('a core lights its net and says from, to and what for', async () => {
    const { page, close } = await diagram(LARGEST, { viewport: DESK });
    await core(page, 'W3.BK').click();
    expect(await line(page)).toMatch(/^Black core sleeved brown of the .+: from .+ to .+; .+\.$/);
    expect((await lit(page, 'data-terminal')).toSorted()).toEqual([
      'E1.SL',
      'M2.overflow NC',
      'X1.8',
    ]);
    expect((await lit(page, 'data-conductor')).toSorted()).toEqual(['W11.GY', 'W3.BK']);
    await close();
  });

  test('a load lights its live path in the mode chosen, and says where it is off', async () => {
    const { page, close } = await diagram(`${TWO_WIRE}?mode=heating`, { viewport: DESK });
    await page.locator('#drawing-load').selectOption('E1/call input');
    expect(await lit(page, 'data-element')).toEqual(expect.arrayContaining(['E1/call input']));
    expect(await lit(page, 'data-conductor')).toEqual(expect.arrayContaining(['W3.BN']));
    await page.locator('#mode-standby').check();
    expect(await line(page)).toContain('off in this mode');
    expect(await lit(page, 'data-conductor')).toEqual([]);
    await close();
  });

  test('a mode is played step by step; with less motion, by its key alone', async () => {
    const { page, close } = await diagram(`${TWO_WIRE}?mode=heating`, {
      viewport: DESK,
      reducedMotion: 'reduce',
    });
    const key = page.locator('#drawing-play');
    await key.click();
    expect(await line(page)).toMatch(
      /^1 of \d+\. Beginning with “Nothing calling”\. .+stat contact closes\.$/,
    );
    expect(await key.textContent()).toBe('Next step');
    await page.waitForTimeout(2600);
    expect(await line(page)).toMatch(/^1 of /);
    await key.click();
    expect(await line(page)).toMatch(/^2 of /);
    const back = page.locator('#drawing-back');
    await back.click();
    expect(await line(page)).toMatch(/^1 of /);
    // At the first step nothing lies before it, and the key that goes leaves none lost.
    expect(await back.isVisible()).toBe(false);
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('drawing-play');
    await key.click();
    await key.click();
    expect(await line(page)).toMatch(/^3 of /);
    await page.locator('#mode-hot-tap').check();
    expect(await back.isVisible()).toBe(false);
    await page.locator('#mode-heating').check();
    await page.emulateMedia({ reducedMotion: 'no-preference' });
    await key.click();
    const comes = (step: number) =>
      page.waitForFunction(
        (start) => document.querySelector('#drawing-line')?.textContent?.startsWith(start),
        `${step} of`,
      );
    await comes(3);
    // Who goes back wants to look: from there the key alone goes on.
    await back.click();
    expect(await line(page)).toMatch(/^2 of /);
    expect(await key.textContent()).toBe('Next step');
    await page.waitForTimeout(2600);
    expect(await line(page)).toMatch(/^2 of /);
    await key.click();
    await comes(3);
    await close();
  });
});

test('on a phone a mode is played by its key, each part brought into sight', async () => {
  const { page, close } = await diagram(`${LARGEST}?mode=heating`, FINGER);
  await page.emulateMedia({ reducedMotion: 'no-preference' });
  const key = page.locator('#drawing-play');
  const steps: number[] = [];
  for (let step = 0; step < 4; step++) {
    await key.tap();
    expect(await key.textContent()).toBe('Next step');
    await page.waitForTimeout(700);
    // What works by its live path has that lit too: the part itself is in sight.
    const inSight = await page.locator('.element.lit >> visible=true').evaluateAll((parts) =>
      parts.some((part) => {
        const { top, bottom } = part.getBoundingClientRect();
        return top > 0 && bottom < innerHeight;
      }),
    );
    expect([step, inSight]).toEqual([step, true]);
    steps.push(await page.evaluate(() => scrollY));
  }
  expect(new Set(steps).size).toBeGreaterThan(1);
  await close();
});

describe('by keyboard', () => {
  test('arrows go along the net and through the box, and the line says where one is', async () => {
    const { page, close } = await diagram(LARGEST, { viewport: DESK });
    await terminal(page, 'E1.SL').focus();
    const at = () => page.evaluate(() => (document.activeElement as HTMLElement).dataset.terminal);
    const met = [];
    for (let press = 0; press < 3; press++) {
      await page.keyboard.press('ArrowRight');
      met.push(await at());
    }
    expect(met.toSorted()).toEqual(['E1.SL', 'M2.overflow NC', 'X1.8']);
    await terminal(page, 'E1.L').focus();
    await page.keyboard.press('ArrowDown');
    expect(await at()).toBe('E1.N');
    expect(await line(page)).toMatch(/^N at the boiler E1/);
    expect(await page.locator('#drawing-line').getAttribute('role')).toBe('status');
    await page.keyboard.press('Enter');
    expect(await sheet(page).textContent()).toContain('N at the boiler E1');
    await close();
  });

  test('every terminal has a name of its own', async () => {
    const { page, close } = await diagram(LARGEST, { viewport: DESK });
    const names = await page
      .locator('a[data-terminal]:visible')
      .evaluateAll((links) => links.map((link) => link.getAttribute('aria-label')));
    expect(names.length).toBeGreaterThan(50);
    expect(new Set(names).size).toBe(names.length);
    await close();
  });
});
