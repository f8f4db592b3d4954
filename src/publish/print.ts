import type { Page } from 'playwright-core';
import type { Part } from './pack.ts';

/** Kinds of page in the order a reader of paper wants them; others are left out. */
const ORDER = ['about', 'procedures', 'systems', 'symptoms', 'standards', 'devices', 'glossary'];

/**
 * Pages for the pack, in the order of printing: lists and tools of the screen are left out.
 * @param pages addresses from the site's base, as `systems/combi-two-wire/`.
 * @param only last parts of addresses wanted, as `combi-two-wire`; all when empty.
 * @throws Error that names what no page is called, with the nearest names.
 */
export function pagesToPrint(pages: readonly string[], only: readonly string[]): string[] {
  const leaf = (path: string) => path.split('/').filter(Boolean).slice(0, 2).at(-1) ?? '';
  const kind = (path: string) => path.split('/')[0]!;
  const printed = pages
    .filter((path) => path === 'about/' || (ORDER.includes(kind(path)) && isOnPaper(path)))
    .toSorted((a, b) => ORDER.indexOf(kind(a)) - ORDER.indexOf(kind(b)) || (a < b ? -1 : 1));
  if (only.length === 0) return printed;
  const unknown = only.filter((name) => !printed.some((path) => leaf(path) === name));
  if (unknown.length > 0)
    throw new Error(
      `No page is called ${unknown.join(', ')}. There are: ${printed.map(leaf).join(', ')}`,
    );
  return printed.filter((path) => only.includes(leaf(path)));
}

/** An entry's own page; of a system, its sheet. */
const isOnPaper = (path: string): boolean =>
  path.startsWith('systems/')
    ? path.endsWith('/sheet/')
    : path.split('/').filter(Boolean).length === 2;

/** Prints one page of the site as it stands for paper. */
export async function printPage(page: Page, address: string): Promise<Part> {
  await page.goto(address);
  // The page asks for the version it prints.
  await page.locator('.built.told').first().waitFor({ state: 'attached' });
  const title = (await page.locator('h1').first().textContent())?.trim() || address;
  const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
  return { title, pdf };
}
