import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** Least height of what a thumb finds, px: the answers of a job are 56, all else 44. */
const LEAST_HEIGHT = 44;

/** Where something stands on the screen, and what lies over it. */
interface Seen {
  readonly text: string;
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
  /** What else is found at its middle or at one of its corners; empty where it is bare. */
  readonly under: string;
}

/**
 * How the elements of a selector stand on the screen as it is, without scrolling to them. What is
 * not shown at all is left out.
 */
const seenOf = (page: Page, selector: string): Promise<Seen[]> =>
  page.locator(selector).evaluateAll((elements) =>
    elements.flatMap((element) => {
      const { top, bottom, left, right } = element.getBoundingClientRect();
      if (bottom - top === 0 || getComputedStyle(element).visibility === 'hidden') return [];
      // Just inside: a rounded corner is no part of it, and half a pixel is nobody's.
      const inset = 4;
      const points = [
        [(left + right) / 2, (top + bottom) / 2],
        [left + inset, top + inset],
        [right - inset, top + inset],
        [left + inset, bottom - inset],
        [right - inset, bottom - inset],
      ] as const;
      const covering = points
        .map(([x, y]) => document.elementFromPoint(x, y))
        .find((there) => !there || !(element === there || element.contains(there)));
      const under =
        covering === undefined
          ? ''
          : covering === null
            ? 'outside the screen'
            : `${covering.tagName} ${covering.className} “${covering.textContent.trim().slice(0, 30)}”`;
      return [{ text: element.textContent.trim().slice(0, 40), top, bottom, left, right, under }];
    }),
  );

/** What of a screen's elements is not wholly in view: cut off, or under something else. */
export async function outOfView(page: Page, selector: string): Promise<string[]> {
  // Nobody sees a page before its styles are there.
  await page.waitForLoadState('load');
  const { width, height } = page.viewportSize()!;
  return (await seenOf(page, selector)).flatMap(({ text, top, bottom, left, right, under }) => {
    const at = `“${text}” from ${Math.round(top)} to ${Math.round(bottom)}`;
    if (top < 0 || bottom > height || left < 0 || right > width) return [`${at}: cut off`];
    return under === '' ? [] : [`${at}: under ${under}`];
  });
}

/** Taps the screen where the first of a selector stands, which is wholly in view under nothing else. */
export async function tapInView(page: Page, selector: string): Promise<void> {
  const first = page.locator(selector).first();
  await first.waitFor();
  expect(await outOfView(page, `${selector} >> nth=0`)).toEqual([]);
  const { x, y, width, height } = (await first.boundingBox())!;
  expect(height, selector).toBeGreaterThanOrEqual(LEAST_HEIGHT);
  // Where it stands: a driver's own tap would first scroll to what is hidden.
  await page.touchscreen.tap(x + width / 2, y + height / 2);
}
