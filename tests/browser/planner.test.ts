import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { COMMON_CASES } from '../../src/wiring/core-planner/index.ts';
import { openTab } from './harness.ts';
import { siteInBrowser } from './site.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const PUMP = '#earth=1&live=1&neutral=1&loop=1';

const site = siteInBrowser();

const open = async (hash: string, options: Parameters<typeof openTab>[1] = {}) => {
  const tab = await openTab(site.chromium.browser, { serviceWorkers: 'block', ...options });
  await tab.page.goto(`${site.server.address}planner/${hash}`);
  return tab;
};
const cores = (page: Page) => page.locator('#core-planner .core-list li').allTextContents();
const more = (page: Page, what: string) => page.getByLabel(`One ${what} more`);

describe('cores between two places, on a phone', () => {
  test('what is counted is answered, stands in the address, and comes back from it', async () => {
    const { page, complaints, close } = await open('');
    await page.getByText('Nothing is asked for yet').waitFor();
    for (const what of ['Earth', 'Permanent live', 'Neutral']) await more(page, what).click();
    await more(page, 'Mains loop, out and back').click();
    expect(new URL(page.url()).hash).toBe(PUMP);
    const found = await cores(page);
    expect(found.length).toBe(5);
    expect(found[0]).toContain('earth');
    expect(found[0]).toContain('GNYE');
    await page.reload();
    expect(await cores(page)).toEqual(found);
    expect(await more(page, 'Neutral').isDisabled()).toBe(true);
    const wide = await page.evaluate(
      () => document.documentElement.scrollWidth > document.documentElement.clientWidth,
    );
    expect(wide).toBe(false);
    expect(complaints.console.filter((line) => !/service ?worker/i.test(line))).toEqual([]);
    expect(complaints.foreign).toEqual([]);
    await close();
  });

  test('three cores there where five are needed: the two are named, and another cable offered', async () => {
    const { page, close } = await open(`${PUMP}&there=3E`);
    const short = page.locator('#core-planner .caution', { hasText: 'No core' });
    expect(await short.textContent()).toContain('loop out, loop back');
    expect(await short.textContent()).toContain('Needed 5, there 3');
    await page.getByRole('button', { name: 'Choose a cable that does' }).click();
    expect(await short.count()).toBe(0);
    expect((await cores(page)).length).toBe(5);
    expect(new URL(page.url()).hash).toBe(PUMP);
    await close();
  });

  test('an address that is no request is said to be none and harms nothing', async () => {
    const { page, close } = await open('#live=99&there=9E&x=%3Cb%3E');
    const alert = page.locator('#core-planner [role="alert"]');
    expect(await alert.locator('li').count()).toBe(3);
    expect(await alert.locator('b').count()).toBe(0);
    await more(page, 'Permanent live').click();
    expect(await alert.count()).toBe(0);
    await close();
  });

  test('a common run is opened in the planner by its link', async () => {
    const { page, close } = await open('');
    await page.locator('#case-volt-free-control summary').click();
    await page.locator('#case-volt-free-control .case-plan').click();
    await expect.poll(() => cores(page)).toHaveLength(2);
    await close();
  });

  test('a cable of a system leads to its own request', async () => {
    const { page, close } = await open('');
    await page.goto(`${site.server.address}systems/combi-condensate-pump/wiring/`);
    await page.locator('#cables summary', { hasText: 'Each cable' }).click();
    const link = page.locator('#cables td[data-label="Cores"] a', { hasText: '5 needed, 5 there' });
    await link.first().click();
    await expect.poll(() => cores(page)).toHaveLength(5);
    await close();
  });

  test('without a script the common runs are all there, and nothing that needs one shows', async () => {
    const { page, close } = await open('', { javaScriptEnabled: false });
    expect(await page.locator('[id^="case-"]').count()).toBe(COMMON_CASES.length);
    expect(await page.locator('#core-planner').isVisible()).toBe(false);
    const pump = page.locator('#case-condensate-pump');
    await pump.locator('summary').click();
    expect(await pump.locator('.core-list li').filter({ visible: true }).count()).toBe(5);
    expect(await pump.locator('.case-plan').isVisible()).toBe(false);
    await close();
  });

  test.each(['light', 'dark'] as const)(
    'axe finds nothing in an answer, %s',
    async (colorScheme) => {
      const { page, close } = await open(`${PUMP}&call=1&there=3E&x=1`, {
        colorScheme,
        bypassCSP: true,
      });
      await page.locator('#core-planner .core-list').first().waitFor();
      await page.evaluate(AXE);
      const violations = await page.evaluate<{ id: string }[]>(
        'axe.run(document, { resultTypes: ["violations"] }).then((found) => found.violations)',
      );
      expect(violations.map(({ id }) => id)).toEqual([]);
      await close();
    },
  );

  test('keys are large enough for a thumb', async () => {
    const { page, close } = await open(PUMP);
    await page.locator('#core-planner .asked').waitFor();
    const keys = page.locator('#core-planner :is(button, select, .plan-tick)');
    for (const key of await keys.all()) {
      const box = (await key.boundingBox())!;
      expect(box.height).toBeGreaterThanOrEqual(48);
    }
    await close();
  });
});
