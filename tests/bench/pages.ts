import type { Page } from 'playwright-core';
import { launch, onePageOfEachKind, openTab, serveFolder } from '../browser/harness.ts';
import { median, table } from './table.ts';

/** How many times slower than this machine the phone is taken to be. */
const SLOWER = 4;
const REPEATS = 5;

/** Milliseconds from the request to the first paint of content, and to the load event. */
async function paintOf(page: Page, address: string): Promise<{ paint: number; load: number }> {
  await page.goto(address, { waitUntil: 'load' });
  return page.evaluate(async () => {
    const paint = await new Promise<number>((resolve) => {
      new PerformanceObserver((list) => {
        const first = list.getEntriesByName('first-contentful-paint')[0];
        if (first) resolve(first.startTime);
      }).observe({ type: 'paint', buffered: true });
    });
    const [navigation] = performance.getEntriesByType('navigation');
    return { paint, load: (navigation as PerformanceNavigationTiming).loadEventEnd };
  });
}

/** The words of a page alone: no style, no script, no drawing. */
async function plain(page: Page): Promise<string> {
  const [words = ''] = await page.locator('body').allInnerTexts();
  const escaped = words.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
  const body = escaped.split('\n').filter(Boolean).join('<p>');
  return `<!doctype html><meta charset="utf-8"><title>plain</title><p>${body}`;
}

/**
 * First paint and load of one page of each kind, beside a plain page of the same words from
 * the same server, turn by turn on a slowed phone that has nothing kept.
 */
export async function pagesTable(folder = 'dist'): Promise<string> {
  const server = await serveFolder(folder);
  const chromium = await launch();
  const rows: string[][] = [];
  try {
    for (const path of onePageOfEachKind().filter((one) => !one.startsWith('no/'))) {
      const own: { paint: number; load: number }[] = [];
      const bare: { paint: number; load: number }[] = [];
      for (let i = 0; i < REPEATS; i++) {
        const tab = await openTab(chromium.browser, { serviceWorkers: 'block', bypassCSP: true });
        const session = await tab.page.context().newCDPSession(tab.page);
        await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
        own.push(await paintOf(tab.page, server.address + path));
        const body = await plain(tab.page);
        await tab.page.route('**/plain/', (route) =>
          route.fulfill({ contentType: 'text/html; charset=utf-8', body }),
        );
        bare.push(await paintOf(tab.page, `${server.address}plain/`));
        await tab.close();
      }
      const middle = (of: typeof own, what: 'paint' | 'load') => median(of.map((t) => t[what]));
      const pair = (what: 'paint' | 'load') => [
        middle(own, what).toFixed(0),
        middle(bare, what).toFixed(0),
        `${(middle(own, what) / middle(bare, what)).toFixed(1)}×`,
      ];
      rows.push([`/${path}`, ...pair('paint'), ...pair('load')]);
    }
  } finally {
    await chromium.close();
    await server.stop();
  }
  const heads = ['page', 'paint ms', 'plain', 'ratio', 'loaded ms', 'plain', 'ratio'];
  return `${table(heads, rows)}

Medians of ${REPEATS}, the two taking turns, processor slowed ${SLOWER}×, nothing kept, served from this
machine. plain: the page's words in paragraphs, no style, script or drawing.
`;
}
