import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { DESK, launch, openTab, PHONE, serveFolder, type TestBrowser } from './harness.ts';

let chromium: TestBrowser;
let server: Awaited<ReturnType<typeof serveFolder>>;
const SYSTEM = 'systems/heat-only-two-port/';
const READINGS = `${SYSTEM}readings/`;

beforeAll(async () => {
  chromium = await launch();
  server = await serveFolder();
});
afterAll(async () => {
  await chromium.close();
  await server.stop();
});

/** Row and column of the cell that has the focus, counted in its table; null elsewhere. */
const place = (page: Page) =>
  page.evaluate(() => {
    const cell = document.activeElement;
    if (!(cell instanceof HTMLTableCellElement)) return null;
    return { row: (cell.parentElement as HTMLTableRowElement).rowIndex, column: cell.cellIndex };
  });

/** Presses Tab from the heading of the readings until a reading has the focus. */
async function tabIntoReadings(page: Page): Promise<void> {
  await page.evaluate(() => {
    const heading = document.querySelector<HTMLElement>('h1')!;
    heading.tabIndex = -1;
    heading.focus();
  });
  // Places nobody reads at come first: each names where the same conductor is read, by a link.
  const links = await page.locator('#readings .quiet-row a').count();
  for (let presses = 0; presses < 3 + links && (await place(page)) === null; presses++)
    await page.keyboard.press('Tab');
}

describe('by keyboard', () => {
  test('arrows move from reading to reading, over the headings of places', async () => {
    const { page, close } = await openTab(chromium.browser, {
      serviceWorkers: 'block',
      viewport: DESK,
    });
    await page.goto(server.address + READINGS);
    await tabIntoReadings(page);
    const start = await place(page);
    expect(start?.column).toBe(1);
    await page.keyboard.press('ArrowRight');
    expect(await place(page)).toEqual({ row: start!.row, column: 2 });
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    expect(await place(page)).toEqual(start);

    const readings = await page.locator('#readings tbody tr:has(td)').count();
    const rows = new Set<number>();
    for (let press = 0; press < readings; press++) {
      rows.add((await place(page))!.row);
      await page.keyboard.press('ArrowDown');
    }
    expect(rows.size).toBe(readings);
    await page.keyboard.press('ArrowUp');
    expect((await place(page))!.row).toBe([...rows].at(-2));
    await close();
  });

  test('Tab enters the readings at a cell that shows, whatever mode is chosen', async () => {
    const { page, close } = await openTab(chromium.browser, {
      serviceWorkers: 'block',
      viewport: PHONE,
    });
    await page.goto(`${server.address}${READINGS}?mode=isolated`);
    await tabIntoReadings(page);
    const cell = await place(page);
    expect(cell).not.toBeNull();
    await page.keyboard.press('ArrowDown');
    expect((await place(page))!.column).toBe(cell!.column);
    await close();
  });

  test.each([
    ['a first page', 30, SYSTEM],
    ['a sheet', 60, `${SYSTEM}sheet/`],
  ])('whatever has the focus is outlined on %s', async (_, presses, path) => {
    const { page, close } = await openTab(chromium.browser, {
      serviceWorkers: 'block',
      viewport: DESK,
    });
    await page.goto(server.address + path);
    const plain: string[] = [];
    for (let press = 0; press < presses; press++) {
      await page.keyboard.press('Tab');
      const focused = await page.evaluate(() => {
        const element = document.activeElement ?? document.body;
        const isRinged = (each: Element) => {
          const { outlineStyle, outlineWidth, strokeWidth } = getComputedStyle(each);
          if (each instanceof SVGElement) return Number.parseFloat(strokeWidth) >= 3;
          return outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2;
        };
        // A choice hidden by style shows its focus on its label, a terminal on its cell.
        const label = element instanceof HTMLInputElement ? [...(element.labels ?? [])] : [];
        const ring = [element, ...label, ...element.querySelectorAll('.cell')].some(isRinged);
        return { ring, html: element.outerHTML.slice(0, 120) };
      });
      if (!focused.ring) plain.push(focused.html);
    }
    expect(plain).toEqual([]);
    await close();
  });
});

describe('a copied table', () => {
  test.each([
    ['wiring', ['Core', 'From', 'To', 'For']],
    ['readings', ['Between', 'Nothing calling']],
  ])('%s pastes into a spreadsheet: a line a row, a tab between cells', async (id, headings) => {
    const { page, close } = await openTab(chromium.browser, {
      viewport: DESK,
      permissions: ['clipboard-read', 'clipboard-write'],
    });
    await page.goto(`${server.address}${SYSTEM}${id}/`);
    const table = page.locator(`#${id} table.copyable`).first();
    await table.locator('xpath=following-sibling::button[1]').click();
    await page.locator('.copy-button', { hasText: 'Copied' }).waitFor();
    const text = await page.evaluate(() => navigator.clipboard.readText());
    const lines = text.split('\n').map((line) => line.split('\t'));
    expect(lines[0]!.slice(0, headings.length)).toEqual(headings);
    // What explains a reading of another mode or instrument is out of sight, and not copied.
    const inSight = (rows: Element[]) =>
      rows.filter((row) => [...row.children].some((cell) => cell.checkVisibility())).length;
    expect(lines).toHaveLength(await table.locator('tr').evaluateAll(inSight));
    const full = lines.filter((cells) => cells.length === lines[0]!.length);
    expect(full.length).toBeGreaterThan(10);
    for (const cells of full) for (const cell of cells) expect(cell).toMatch(/^\S.*\S$|^\S?$/);
    // One reading a cell: those of the instruments not chosen are not copied.
    if (id === 'readings')
      for (const cells of full.slice(1))
        for (const cell of cells.slice(1))
          expect(cell).toMatch(/^([\d.<]+( V)?( DC)?( \p{L}+)+|no volts \([\d.]+ V\))$/u);
    await close();
  });
});
