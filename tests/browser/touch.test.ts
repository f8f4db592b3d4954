import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { shippedNetworks } from '../support/content.ts';
import { openTab, PHONE } from './harness.ts';
import { SHORT_VISITS, siteInBrowser } from './site.ts';

const site = siteInBrowser(SHORT_VISITS);

/** What a finger finds (WCAG 2.2, success criterion 2.5.5), px wide and high. */
const FINGER = 44;
/** How far a tap that is meant for a terminal falls beside its middle, px. */
const OFF = 20;
const DIRECTIONS = 4;
/** From one terminal to the next the directions turn by so much, so that all come up; rad. */
const TURN = 2.4;

/** Taps meant for a terminal: its middle, and beside it in every direction. */
const tapsAt = (terminal: number): (readonly [dx: number, dy: number])[] => [
  [0, 0],
  ...Array.from({ length: DIRECTIONS }, (_, i) => {
    const angle = (2 * Math.PI * i) / DIRECTIONS + TURN * terminal;
    return [OFF * Math.cos(angle), OFF * Math.sin(angle)] as const;
  }),
];

const openSheet = (page: Page) => page.locator('#terminal-sheet');

/** Middle of a terminal's cell as the drawing is moved to show it, px of the screen. */
const bringUp = (page: Page, id: string) =>
  page.evaluate((terminal) => {
    const cell = [...document.querySelectorAll(`[data-terminal="${terminal}"] .cell`)].find(
      (one) => one.getClientRects().length > 0,
    )!;
    cell.scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' });
    const { left, top, width, height } = cell.getBoundingClientRect();
    return { x: left + width / 2, y: top + height / 2 };
  }, id);

/** Which terminal's sheet is open, and which keys it offers beside, with their place and size. */
const sheetNow = (page: Page) =>
  page.evaluate(() => {
    const dialog = document.querySelector<HTMLDialogElement>('#terminal-sheet')!;
    const keys = [...dialog.querySelectorAll<HTMLElement>('[data-beside]')].map((key) => {
      const { left, top, right, bottom } = key.getBoundingClientRect();
      return { id: key.dataset.beside!, left, top, right, bottom };
    });
    return { title: dialog.open ? dialog.querySelector('h2')!.textContent : null, keys };
  });

const names = (page: Page) =>
  page.evaluate(() => {
    const { terminals } = JSON.parse(document.querySelector('#drawing-data')!.textContent!);
    return Object.fromEntries(
      Object.entries(terminals as Record<string, { name: string }>).map(([id, { name }]) => [
        id,
        name.charAt(0).toUpperCase() + name.slice(1),
      ]),
    ) as Record<string, string>;
  });

test.each([...shippedNetworks().keys()])(
  '%s: at natural size a tap up to 20 px beside the middle of any terminal reaches it in two',
  async (id) => {
    const { page, close } = await openTab(site.chromium.browser, {
      serviceWorkers: 'block',
      viewport: PHONE,
      hasTouch: true,
      isMobile: true,
    });
    await page.goto(`${site.server.address}systems/${id}/diagram/`);
    const titles = await names(page);
    const missed: string[] = [];
    let taps = 0;
    for (const [i, [terminal, title]] of Object.entries(titles).entries()) {
      for (const [dx, dy] of tapsAt(i)) {
        const { x, y } = await bringUp(page, terminal);
        await page.touchscreen.tap(x + dx, y + dy);
        taps++;
        const first = await sheetNow(page);
        const say = (why: string) =>
          missed.push(`${terminal} ${Math.round(dx)},${Math.round(dy)}: ${why}`);
        const key = first.keys.find((one) => one.id === terminal);
        // In its middle nothing else is meant.
        if (dx === 0 && dy === 0 && first.title !== title) say(`its middle opens ${first.title}`);
        for (const { id: other, left, top, right, bottom } of first.keys) {
          if (right - left < FINGER || bottom - top < FINGER) say(`the key to ${other} is small`);
          if (left < 0 || top < 0 || right > PHONE.width || bottom > PHONE.height)
            say(`the key to ${other} is out of sight`);
        }
        if (first.title !== title) {
          if (key) {
            await page.touchscreen.tap((key.left + key.right) / 2, (key.top + key.bottom) / 2);
            const { title: second } = await sheetNow(page);
            if (second !== title) say(`its key opens ${second}`);
          } else say(`opens ${first.title}, which offers ${first.keys.map((one) => one.id)}`);
        }
        await openSheet(page).evaluate((dialog: HTMLDialogElement) => dialog.close());
      }
    }
    expect(missed).toEqual([]);
    expect(taps).toBeGreaterThan(10 * DIRECTIONS);
    await close();
  },
  300_000,
);
