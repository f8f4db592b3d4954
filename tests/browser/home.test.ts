import { describe, expect, test } from 'vitest';
import { violations } from './accessibility.ts';
import { DESK, heightOf, openTab, PHONE } from './harness.ts';
import { beginJob } from './job-steps.ts';
import { siteInBrowser } from './site.ts';

const site = siteInBrowser();
/** Two screens of the narrowest phone that the site is made for. */
const TWO_SCREENS = 2 * PHONE.height;
const LEAST_TOUCH = 48;

/** Opens a page with no worker, so that what is seen is the page alone. */
const open = async (path: string, options: Parameters<typeof openTab>[1] = {}) => {
  const tab = await openTab(site.chromium.browser, { serviceWorkers: 'block', ...options });
  await tab.page.goto(site.server.address + path);
  return tab;
};
const KINDS = ['visits', 'pins', 'recents'] as const;

describe('the home page on a phone', () => {
  test('is two screens long, with what is wrong on the first', async () => {
    const { page, close } = await open('');
    expect(await heightOf(page)).toBeLessThanOrEqual(TWO_SCREENS);
    const order = await page
      .locator('.home h2:visible, .home .emergency summary')
      .allTextContents();
    expect(order).toEqual([
      'Emergency: gas, CO, power cut',
      'What is wrong?',
      'What is in front of you?',
      'How the work is done',
    ]);
    const complaints = page.locator('.home .complaints a');
    expect(await complaints.count()).toBe(7);
    for (const link of await complaints.all()) {
      const box = (await link.boundingBox())!;
      expect(box.height).toBeGreaterThanOrEqual(LEAST_TOUCH);
      // Above the search at the foot of the screen.
      expect(box.y + box.height).toBeLessThan(PHONE.height - 64);
    }
    await complaints.first().click();
    await page.waitForURL(/\/symptoms\/[a-z-]+\/$/);
    await close();
  });

  test.each([320, 360])('scrolls no way but down at %i px', async (width) => {
    for (const path of ['', '?arrangement=unknown', 'symptoms/', 'symptoms/cut-out-tripped/']) {
      const { page, close } = await open(path, { viewport: { width, height: 740 } });
      const wide = () => document.documentElement.scrollWidth > innerWidth;
      expect([path, await page.evaluate(wide)]).toEqual([path, false]);
      await close();
    }
  });
});

describe('what is in front of you', () => {
  /** Questions, answers that can be given, systems shown, and whether what they are known by is. */
  const seen = async (page: Awaited<ReturnType<typeof open>>['page']) => ({
    open: await page.locator('.question:visible:not(:has(:checked)) .asked').allTextContents(),
    systems: await page.locator('.in-front .system-entry:visible').count(),
    lines: await page.locator('.in-front .recognise:visible').count(),
  });

  test.each([true, false])(
    'is asked one question at a time, scripts %s',
    async (javaScriptEnabled) => {
      const { page, close } = await open('', { javaScriptEnabled });
      const left = () => page.locator('[data-shown-count]').textContent();
      expect(await seen(page)).toEqual({ open: ['Boiler'], systems: 0, lines: 0 });
      await page.locator('.question label', { hasText: 'Combi' }).click();
      expect(await seen(page)).toEqual({ open: ['Control'], systems: 9, lines: 0 });
      if (javaScriptEnabled) expect(await left()).toBe('9 of 13 systems');
      expect(await page.locator('.question.control label:visible').allInnerTexts()).toEqual([
        'Two-wire control',
        'Three-wire control',
        'Wireless control',
        'Volt-free control',
        'Programmer and thermostats',
        'Don’t know',
      ]);
      await page.locator('.question label', { hasText: 'Wireless control' }).click();
      expect(await seen(page)).toEqual({ open: [], systems: 2, lines: 2 });
      await page.locator('button', { hasText: 'Start again' }).click();
      expect(await seen(page)).toEqual({ open: ['Boiler'], systems: 0, lines: 0 });
      // No combi here has a mid-position valve or a cylinder: they are no answers.
      await page.locator('.question label', { hasText: 'Combi' }).click();
      await page.locator('.question.control label', { hasText: 'Don’t know' }).click();
      const also = await page.locator('.question.feature label:visible').allInnerTexts();
      expect(also).toContain('Two-port valves');
      expect(also.join()).not.toMatch(/Mid-position|cylinder|overrun/);
      await page.locator('button', { hasText: 'Start again' }).click();
      // Who knows neither is asked what else is there.
      await page.locator('.question.arrangement label', { hasText: 'Don’t know' }).click();
      await page.locator('.question.control label', { hasText: 'Programmer' }).click();
      expect(await seen(page)).toEqual({ open: ['Also there'], systems: 5, lines: 0 });
      await page.locator('.question.feature label', { hasText: 'Two-port' }).click();
      expect(await seen(page)).toEqual({ open: [], systems: 3, lines: 3 });
      await close();
    },
  );

  test('is answered by keys, every answer in reach, and found again on going back', async () => {
    const { page, close } = await open('');
    const answers = page.locator('.question.arrangement .chip');
    const shown = () =>
      answers.evaluateAll((all) => all.filter((one) => one.clientHeight >= 48).length);
    const focused = () => page.evaluate(() => document.activeElement?.id);
    for (let i = 0; i < 30 && (await focused()) !== 'arrangement-combi'; i++)
      await page.keyboard.press('Tab');
    for (const [key, id] of [
      ['ArrowDown', 'system'],
      ['ArrowDown', 'heat-only'],
      ['ArrowDown', 'unknown'],
      ['ArrowDown', 'combi'],
      ['ArrowUp', 'unknown'],
      ['ArrowUp', 'heat-only'],
    ] as const) {
      await page.keyboard.press(key);
      expect([await focused(), await shown()]).toEqual([`arrangement-${id}`, 4]);
    }
    await page.keyboard.press('Tab');
    expect([await focused(), await shown()]).toEqual(['', 1]);
    await page.locator('.in-front .system-entry:visible > a').first().click();
    await page.waitForURL(/\/systems\//);
    await page.goBack();
    expect(await page.locator('#arrangement-heat-only').isChecked()).toBe(true);
    expect((await seen(page)).systems).toBe(3);
    await close();
  });
});

describe('what this phone keeps', () => {
  test('is not spoken of where there is none', async () => {
    const { page, close } = await open('');
    expect(await page.locator('.visits, .kept-list').count()).toBe(3);
    expect(await page.locator('.visits:visible, .kept-list:visible').count()).toBe(0);
    await close();
  });

  test('a visit left open stands first with its next act, one tap away; finished, it goes', async () => {
    const { page, complaints, close } = await open('job/?system=combi-two-wire');
    await beginJob(page);
    await page.locator('.job-tabs >> text=Record').click();
    await page.locator('#job-name-now').fill('Mrs Example, 4 Sample Row');
    await page.waitForFunction(() =>
      /(?=.*"next":"\w)(?=.*Mrs Example)/s.test(localStorage['proveline.visits'] ?? ''),
    );
    await page.goto(site.server.address);
    const row = page.locator('.visits li a').first();
    expect(await row.locator('strong').textContent()).toBe('Mrs Example, 4 Sample Row');
    expect(await row.locator('span').textContent()).toMatch(/^0 findings, .*, Combi boiler/);
    expect(await row.locator('b').textContent()).toMatch(/^Next: \S/);
    expect((await row.boundingBox())!.y).toBeLessThan(200);
    expect(await violations(page)).toEqual([]);
    await row.click();
    await page.waitForSelector('.job-head');
    await page.locator('.job-tabs >> text=Record').click();
    await page.locator('button', { hasText: /^Finish/ }).click();
    await page.waitForFunction(() => localStorage['proveline.visits'] === '[]');
    await page.goto(site.server.address);
    expect(await page.locator('.visits').isVisible()).toBe(false);
    expect(complaints.console.filter((line) => !/service ?worker/i.test(line))).toEqual([]);
    await close();
  });

  test('is listed only where it can be read, whatever wrote it there', async () => {
    const { page, close } = await open('');
    await page.evaluate(() => {
      const visit = { id: 'a', title: 'A', stands: 'B', changed: '2026-01-01T00:00:00.000Z' };
      localStorage['proveline.visits'] = JSON.stringify([
        { ...visit, next: 'Look: Burner lit?' },
        { ...visit, next: 7 },
        { ...visit, id: '<b>', next: '' },
      ]);
    });
    await page.reload();
    expect(await page.locator('.visits li b').allTextContents()).toEqual([
      'Next: Look: Burner lit?',
    ]);
    expect(await page.locator('.more-visits').isVisible()).toBe(false);
    await close();
  });

  test.each([PHONE, DESK])('moves nothing as it is filled in, $width px wide', async (viewport) => {
    const { page, close } = await open('', { viewport });
    await page.evaluate((kinds) => {
      const visit = { id: 'a', title: 'A', stands: 'B', next: '', changed: '' };
      const kept = {
        path: '/systems/combi-two-wire/',
        title: 'A long name of a page, too long for one line',
        kind: 'system',
      };
      for (const kind of kinds)
        localStorage[`proveline.${kind}`] = JSON.stringify(
          kind === 'visits' ? [visit, visit, visit] : [kept, { ...kept, path: '/b/' }],
        );
    }, KINDS);
    await page.addInitScript(() => {
      let shift = 0;
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries() as (PerformanceEntry & { value: number })[])
          shift += entry.value;
        document.documentElement.dataset.shift = String(shift);
      }).observe({ type: 'layout-shift', buffered: true });
    });
    await page.reload({ waitUntil: 'networkidle' });
    expect(await page.locator('.visits li').count()).toBe(2);
    expect(await page.locator('.more-visits:visible').textContent()).toBe('All 3 open');
    expect(await page.locator('.pins li').count()).toBe(2);
    expect(await page.locator('.recents summary').isVisible()).toBe(true);
    expect(
      Number(await page.evaluate(() => document.documentElement.dataset.shift ?? 0)),
    ).toBeLessThan(0.02);
    await close();
  });
});

describe('the home page with pins and no visit', () => {
  test('is two screens long, and asks what is in front of you', async () => {
    const { page, close } = await open('');
    await page.evaluate(() => {
      const kept = Array.from({ length: 8 }, (_, i) => ({
        path: `/${i}/`,
        title: `A ${i}`,
        kind: 'system',
      }));
      localStorage['proveline.pins'] = JSON.stringify(kept);
      localStorage['proveline.recents'] = JSON.stringify(kept);
    });
    await page.reload({ waitUntil: 'networkidle' });
    expect(await heightOf(page)).toBeLessThanOrEqual(TWO_SCREENS);
    expect(await page.locator('.question:visible').count()).toBe(1);
    await close();
  });
});

describe('the home page with a visit left open', () => {
  test.each([
    { visits: 1, pins: 2 },
    { visits: 2, pins: 6 },
    { visits: 3, pins: 8 },
  ])(
    'is two screens long with $visits visits and $pins pins, what is in front of you one tap away',
    async (kept) => {
      const { page, close } = await open('');
      await page.evaluate(({ visits, pins }) => {
        const next =
          'Isolated and proved dead: tug each core at the wiring centre, look for burnt ones';
        const visit = { id: 'a', title: 'A', stands: 'B', next, changed: '' };
        localStorage['proveline.visits'] = JSON.stringify(
          Array.from({ length: visits }, () => visit),
        );
        const kept = Array.from({ length: pins }, (_, i) => ({
          path: `/${i}/`,
          title: `Heat-only boiler with pump overrun and two-port valves ${i}`,
          kind: 'system',
        }));
        localStorage['proveline.pins'] = JSON.stringify(kept);
        localStorage['proveline.recents'] = JSON.stringify(kept.slice(0, 6));
      }, kept);
      await page.reload({ waitUntil: 'networkidle' });
      expect(await page.locator('.pins li').count()).toBe(kept.pins);
      // The last one pinned is in sight, every other one tap away.
      expect(await page.locator('.pins li:visible').count()).toBe(kept.pins > 2 ? 1 : kept.pins);
      expect(await heightOf(page)).toBeLessThanOrEqual(TWO_SCREENS);
      const visit = (await page.locator('.visits li a').first().boundingBox())!;
      expect(visit.y).toBeLessThan(120);
      if (kept.pins > 2) {
        await page.locator('.pins summary', { hasText: `${kept.pins - 1} more pinned` }).click();
        expect(await page.locator('.pins li:visible').count()).toBe(kept.pins);
      }
      await page.locator('a', { hasText: 'What is in front of you?' }).click();
      await page.waitForURL(/\/systems\/$/);
      await close();
    },
  );
});

describe('complaints', () => {
  test('stand in one list of the customer’s words, each in one line', async () => {
    const { page, close } = await open('symptoms/');
    expect(await heightOf(page)).toBeLessThanOrEqual(4000);
    const heights = await page
      .locator('.complaint-group .complaints a')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
    expect(heights.length).toBeGreaterThan(30);
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(LEAST_TOUCH);
    expect(Math.max(...heights)).toBeLessThan(LEAST_TOUCH + 4);
    await close();
  });

  test('lead to what to look at first and the way on, without scrolling', async () => {
    for (const path of ['no-heating-hot-water-works', 'boiler-lockout', 'comes-and-goes']) {
      const { page, close } = await open(`symptoms/${path}/`);
      const caution = (await page.locator('.symptom > .caution').boundingBox())!;
      const first = (await page.locator('.look-first p').first().boundingBox())!;
      const way = (await page.locator('.way-on').boundingBox())!;
      expect(caution.y).toBeLessThan(first.y);
      expect(first.y).toBeLessThan(way.y);
      expect(way.y + way.height).toBeLessThan(PHONE.height - 64);
      // What is filled with colour is the act alone.
      const filled = await page
        .locator('main :is(a, button):visible')
        .evaluateAll(
          (all) =>
            all.filter((one) => getComputedStyle(one).backgroundColor !== 'rgba(0, 0, 0, 0)')
              .length,
        );
      expect(filled).toBe(1);
      await page.locator('.way-on').click();
      await page.waitForURL(
        new RegExp(`#cautions$|job/\\?complaint=${path}&history=worked-until-now$`),
      );
      await close();
    }
  });

  test('lead on to a system’s sequence and to a job', async () => {
    const { page, close } = await open('symptoms/no-heating-hot-water-works/');
    await page.locator('#in-combi-two-wire > summary').click();
    const ways = await page.locator('#in-combi-two-wire .ways a').allTextContents();
    expect(ways).toEqual(['Test sequence', 'Start a job with this', 'Wiring and readings']);
    // How long it has been so is asked here, and not again there; one tap puts it right.
    await page.locator('.since-else a', { hasText: 'since somebody worked on it' }).click();
    await page.waitForSelector('.choose-system');
    expect(await page.locator('h1').textContent()).toBe('No heating, hot water is fine');
    expect(await page.locator('.since-line').textContent()).toMatch(/^Not right since somebody/);
    await page.locator('.since-line button').click();
    await page.waitForSelector('text=how long has it been so');
    expect(await page.locator('.look-first').isVisible()).toBe(true);
    await close();
  });
});
