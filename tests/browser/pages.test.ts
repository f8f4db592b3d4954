import type { BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { serveAxe, unfold, violations } from './accessibility.ts';
import { DESK, onePageOfEachKind, openTab, PHONE, pagesOf, readManifest } from './harness.ts';
import { SHORT_VISITS, siteInBrowser } from './site.ts';

/** Layout shift that a page may add up to before it is touched: a fifth of what is called good. */
const MOST_SHIFT = 0.02;
/** Tabs that go through the pages at once: most of a page's time is waiting for it to be quiet. */
const TABS = 4;

/** Every page, and those that fill themselves by what their address asks for. */
const pages = [
  ...pagesOf(readManifest()),
  'search/?q=fuse',
  'search/?q=no+such+thing',
  'systems/combi-two-wire/?mode=heating',
];
const site = siteInBrowser(SHORT_VISITS);
let axe: Awaited<ReturnType<typeof serveAxe>>;
beforeAll(async () => {
  axe = await serveAxe();
});
afterAll(() => axe.stop());

/** Adds up how far what is shown moves by itself. */
function addUpShift(): void {
  let shift = 0;
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries() as (PerformanceEntry & { value: number })[])
      shift += entry.value;
    document.documentElement.dataset.shift = String(shift);
  }).observe({ type: 'layout-shift', buffered: true });
}

/** Waits until for half a second nothing was loaded and nothing moved; ten seconds at most. */
const isQuiet = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        setTimeout(resolve, 10_000);
        let quiet = setTimeout(resolve, 500);
        const again = () => {
          clearTimeout(quiet);
          quiet = setTimeout(resolve, 500);
        };
        for (const type of ['resource', 'layout-shift'])
          new PerformanceObserver(again).observe({ type, buffered: true });
      }),
  );

/** Opens pages, in several tabs at once, and gives what is wrong, by page. */
async function wrongOn(
  pages: readonly string[],
  options: BrowserContextOptions,
  look: (page: Page) => Promise<Record<string, unknown>>,
): Promise<Record<string, unknown>> {
  const wrong: Record<string, unknown> = {};
  const left = [...pages];
  const goThrough = async () => {
    const tab = await openTab(site.chromium.browser, { serviceWorkers: 'block', ...options });
    await tab.page.addInitScript(addUpShift);
    for (let path = left.shift(); path !== undefined; path = left.shift()) {
      const response = await tab.page.goto(site.server.address + path, { waitUntil: 'load' });
      const found = { status: response?.status(), ...(await look(tab.page)) };
      // The worker is blocked here for speed, and the page of no address has its status.
      const console = tab.complaints.console.filter(
        (line) => !/service ?worker|404 \(Not Found\).*404\.html/i.test(line),
      );
      tab.complaints.console.length = 0;
      const right = {
        ...Object.fromEntries(Object.keys(found).map((key) => [key, RIGHT[key]])),
        status: path === '404.html' ? 404 : 200,
      };
      const [a, b] = [
        { ...found, console },
        { ...right, console: [] },
      ];
      if (JSON.stringify(a) !== JSON.stringify(b)) wrong[path] = a;
    }
    expect(tab.complaints.foreign).toEqual([]);
    await tab.close();
  };
  await Promise.all(Array.from({ length: TABS }, goThrough));
  return wrong;
}

/** What is found on a page that is right. */
const RIGHT: Record<string, unknown> = {
  isWide: false,
  isWideOnDesk: false,
  shifts: false,
  violations: [],
  tooMany: false,
  tooTall: false,
  isLate: false,
  showsMarkup: false,
};

/** Elements of a page at most, a sheet for paper among them. */
const MOST_ELEMENTS = 3000;
/** Heights on a phone at most, px, by the kind of page: what is long is folded or has its own page. */
const MOST_HEIGHT: readonly (readonly [RegExp, number])[] = [
  [/^\/$/, 2 * PHONE.height],
  [/^\/404\.html$/, PHONE.height],
  [/^\/symptoms\/$/, 4000],
  [/^\/systems\/[a-z-]+\/$/, 5000],
  [/^\/systems\/[a-z-]+\/(?:diagram|live-path)\/$/, 5000],
  [/^\/systems\/[a-z-]+\/(?:wiring|readings)\/$/, 6500],
  [/^\/systems\/[a-z-]+\/sequences\//, 3000],
  [/^\/systems\/[a-z-]+\/comes-and-goes\/$/, 5000],
  [/^\/systems\/[a-z-]+\/replace\/$/, 4000],
  [/^\/systems\/[a-z-]+\/replace\/[a-z0-9-]+\/$/, 6500],
  // Read through before anybody isolates: no step of it is folded.
  [/^\/procedures\/safe-isolation\/$/, 8500],
  // Folded, but for the cautions of its steps: no tap stands before one.
  [/^\/procedures\/[a-z-]+\/$/, 3750],
];
const mostHeight = (page: Page) => {
  const { pathname } = new URL(page.url());
  return MOST_HEIGHT.find(([kind]) => kind.test(pathname))?.[1] ?? Infinity;
};

/**
 * What a page is opened for, by its kind: the first of it stands on a phone's first screen, above
 * what lies over its foot. A caution that must stand before it leaves it that room.
 */
const FIRST_ANSWERS: readonly (readonly [RegExp, string])[] = [
  [/^\/$/, '.visits li a, .complaints a'],
  [/^\/symptoms\/[a-z-]+\/$/, '.look-first p, .way-on'],
  [/^\/devices\/[a-z0-9-]+\/$/, '#terminals + table :is(th, td)'],
  [/^\/procedures\/[a-z-]+\/$/, '.steps .act'],
  [/^\/systems\/$/, '.system-list a'],
  [/^\/systems\/[a-z-]+\/$/, '.hub-ways .first-way'],
  [/^\/systems\/[a-z-]+\/readings\/$/, '.readings-table td'],
  [/^\/systems\/[a-z-]+\/wiring\/$/, '.wiring-table td'],
  [/^\/systems\/[a-z-]+\/diagram\/$/, '.pan text'],
  [/^\/systems\/[a-z-]+\/live-path\/$/, '.path-rows li'],
  [/^\/systems\/[a-z-]+\/sequences\/.+$/, '.way-on, .end'],
  [/^\/systems\/[a-z-]+\/comes-and-goes\/$/, '.way-on'],
  [/^\/systems\/[a-z-]+\/replace\/$/, '.link-list a'],
  [/^\/systems\/[a-z-]+\/replace\/[a-z0-9-]+\/$/, '.comes-to > strong'],
];
/** What a page asks: every answer to it stands above that foot. */
const ALL_ANSWERS: readonly (readonly [RegExp, string])[] = [
  [/^\/symptoms\/[a-z-]+\/$/, '.since-else a'],
];
const answersOn = (page: Page, kinds: typeof FIRST_ANSWERS) => {
  const { pathname } = new URL(page.url());
  return kinds.find(([kind]) => kind.test(pathname))?.[1];
};

/** What a page is as it stands; read at once, as each question to a page takes its time. */
const standing = (page: Page) =>
  page.evaluate(
    ([first, all]) => {
      const { dataset, scrollWidth, clientWidth, scrollHeight } = document.documentElement;
      const endsOf = (selector: string) =>
        [...document.querySelectorAll(selector)]
          .map((one) => one.getBoundingClientRect())
          .filter(({ height }) => height > 0)
          .map(({ bottom }) => bottom);
      const foot = document
        .elementFromPoint(innerWidth / 2, innerHeight - 2)
        ?.closest('.page-bar, form');
      return {
        shift: Number(dataset.shift ?? 0),
        isWide: scrollWidth > clientWidth,
        count: document.querySelectorAll('*').length,
        height: scrollHeight,
        /** How far below the foot of the first screen an answer ends that must stand above it, px. */
        below:
          Math.max(first ? Math.min(...endsOf(first)) : -Infinity, ...(all ? endsOf(all) : [])) -
          (foot?.getBoundingClientRect().top ?? innerHeight),
        /** What stands in a noscript is text where scripts run: whether any of it is to be seen. */
        showsMarkup: [...document.querySelectorAll('noscript')].some((kept) => {
          const text = document.createRange();
          text.selectNodeContents(kept);
          return text.getClientRects().length > 0;
        }),
      };
    },
    [answersOn(page, FIRST_ANSWERS), answersOn(page, ALL_ANSWERS)] as const,
  );

const isWide = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);

/** Leaves the page hidden, as it is but while it is measured: so it is laid out once, and not drawn. */
async function isWideOnDesk(page: Page): Promise<boolean> {
  await page.evaluate(() => document.documentElement.style.setProperty('display', 'none'));
  await page.setViewportSize(DESK);
  const wide = await page.evaluate(() => {
    const { style } = document.documentElement;
    style.removeProperty('display');
    const { scrollWidth, clientWidth } = document.documentElement;
    style.setProperty('display', 'none');
    return scrollWidth > clientWidth;
  });
  await page.setViewportSize(PHONE);
  return wide;
}

describe(`each of ${pages.length} pages opens without a complaint, asks no other host, scrolls no way but down`, () => {
  test('on a phone, does not move while it loads, and axe finds nothing; nor is it wide on a desk', async () => {
    const wrong = await wrongOn(
      pages,
      { viewport: PHONE, colorScheme: 'light', bypassCSP: true },
      async (page) => {
        await isQuiet(page);
        const { shift, isWide, count, height, below, showsMarkup } = await standing(page);
        await unfold(page);
        const found = await violations(page, axe.address);
        return {
          isWide,
          isWideOnDesk: await isWideOnDesk(page),
          showsMarkup,
          tooMany: count > MOST_ELEMENTS ? count : false,
          tooTall: height > mostHeight(page) ? height : false,
          isLate: below > 0 ? below : false,
          shifts: shift > MOST_SHIFT ? shift : false,
          violations: found,
        };
      },
    );
    expect(wrong).toEqual({});
  });

  test('on a desk, opened there, one of each kind', async () => {
    const wrong = await wrongOn(onePageOfEachKind(), { viewport: DESK }, async (page) => ({
      isWide: await isWide(page),
    }));
    expect(wrong).toEqual({ 'no/such/page/': expect.objectContaining({ status: 404 }) });
  });
});
