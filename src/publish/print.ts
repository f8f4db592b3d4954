import { PDFArray, PDFDict, PDFDocument, PDFName, PDFRef } from '@cantoo/pdf-lib';
import type { Page } from 'playwright-core';

/** An entry as it stands in a printed part. */
export interface Entry {
  readonly title: string;
  /** Its address from the site's base. */
  readonly path: string;
  /** Page of the part that it begins on, from 0. */
  readonly page: number;
}

/** Pages printed in one go. */
export interface Part {
  readonly pdf: Uint8Array;
  readonly entries: readonly Entry[];
}

/** A browser's page, and where it finds the site. */
export interface Press {
  readonly page: Page;
  /** Address of the site's base. */
  readonly address: string;
}

export const PAPER = { preferCSSPageSize: true, printBackground: true } as const;
const WITH_HEADINGS = { ...PAPER, outline: true, tagged: true } as const;

/** Sizes of type that are tried until a last page is not left with a few lines, points. */
const SIZES = [9.5, 9.4, 9.3, 9.2, 9.1, 9, 8.9, 8.8, 8.7, 8.6, 8.5];

/** Opens the site once: what every page needs is then at hand when the first is printed. */
export const warmUp = ({ page, address }: Press) =>
  page.goto(address, { waitUntil: 'networkidle' });

/** Opens a page of the site, and waits until it is as it is printed. */
export async function open({ page, address }: Press, path: string): Promise<void> {
  await page.goto(address + path);
  // The page asks for the version it prints.
  await page.locator('.built.told').first().waitFor({ state: 'attached' });
  await page.evaluate(() => document.fonts.ready);
}

/** Letters of how a system works that need no page of their own. */
const BRIEF = 600;

/** Prints a system's sheet and, on a page of its own unless it is brief, how it works. */
export async function printSheet(press: Press, path: string): Promise<Part> {
  const { page } = press;
  await open(press, path);
  const title = (await page.locator('h1').first().textContent())?.trim() || path;
  await page.evaluate(
    ([name, few]) => {
      document.documentElement.classList.add('in-pack');
      const whose = document.createElement('p');
      whose.className = 'whose';
      whose.append(name);
      const how = document.querySelector('#how');
      // Printed after its own title, it would leave a page with a few lines.
      how?.classList.toggle('brief', how.textContent.trim().length < few);
      how?.prepend(whose);
    },
    [title, BRIEF] as const,
  );
  return { pdf: await page.pdf(PAPER), entries: [{ title, path, page: 0 }] };
}

/**
 * Prints entries one after another, in the order of their titles where that is asked for: each
 * begins where the one before it ends.
 */
export async function printRun(
  press: Press,
  paths: readonly string[],
  byTitle: boolean,
): Promise<Part> {
  const { page } = press;
  await open(press, paths[0]!);
  const found = await page.evaluate(
    async ([base, first, rest, sorted]) => {
      const main = document.querySelector('main')!;
      const fetched = rest.map(async (path) => {
        const html = await (await fetch(base + path)).text();
        const whole = new DOMParser().parseFromString(html, 'text/html');
        return { path, nodes: whole.querySelector('main')!.childNodes };
      });
      const entries = [
        { path: first, nodes: main.childNodes },
        ...(await Promise.all(fetched)),
      ].map(({ path, nodes }) => {
        const entry = document.createElement('section');
        entry.className = 'run-entry';
        entry.append(...nodes);
        return { path, entry, title: entry.querySelector('h1')?.textContent?.trim() || path };
      });
      if (sorted) entries.sort((a, b) => a.title.localeCompare(b.title, 'en-GB'));
      document.documentElement.classList.add('in-pack', 'in-run');
      main.replaceChildren(...entries.map(({ entry }) => entry));
      return entries.map(({ path, title }) => ({ path, title }));
    },
    [press.address, paths[0]!, paths.slice(1), byTitle] as const,
  );
  await fillLastPage(page);
  const pdf = await page.pdf(WITH_HEADINGS);
  const pages = await pagesOfHeadings(pdf);
  if (pages.length !== found.length)
    throw new Error(`${paths[0]} and what follows it were printed with ${pages.length} headings`);
  return { pdf, entries: found.map((entry, i) => ({ ...entry, page: pages[i]! })) };
}

/**
 * Sets the page a little smaller until its print does not end with a page of a few lines.
 * Two headings are set after it for that, the second below a gap that leaves a last page room for
 * a few lines alone: where both stand on one page, there are no more.
 */
export async function fillLastPage(page: Page): Promise<void> {
  const marks = await page.evaluateHandle(() => {
    const [end, gap, after] = ['h1', 'div', 'h1'].map((tag) => document.createElement(tag));
    end!.append('End');
    gap!.append(after!);
    after!.append('After');
    gap!.className = 'run-gap';
    document.querySelector('main')!.append(end!, gap!);
    return [end!, gap!];
  });
  for (const size of SIZES) {
    await page.evaluate(
      (points) => document.documentElement.style.setProperty('--print-size', `${points}pt`),
      size,
    );
    const pages = await pagesOfHeadings(await page.pdf(WITH_HEADINGS));
    if (pages.at(-1) !== pages.at(-2) || pages.at(-1) === 0) break;
  }
  await marks.evaluate((elements) => {
    for (const one of elements) one.remove();
  });
}

/** Pages from 0 on which the headings of the first order stand (ISO 32000-1, 12.3.3). */
async function pagesOfHeadings(pdf: Uint8Array): Promise<number[]> {
  const book = await PDFDocument.load(pdf);
  const refs = book.getPages().map(({ ref }) => ref);
  const lookUp = (of: PDFDict | undefined, key: string) =>
    of?.lookupMaybe(PDFName.of(key), PDFDict);
  const found: number[] = [];
  let item = lookUp(lookUp(book.catalog, 'Outlines'), 'First');
  for (; item; item = lookUp(item, 'Next')) {
    const target = item.lookup(PDFName.of('Dest'), PDFArray).get(0);
    found.push(refs.findIndex((ref) => target instanceof PDFRef && ref === target));
  }
  return found;
}
