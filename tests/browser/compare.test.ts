import { describe, expect, test } from 'vitest';
import { isSound, offlinePhone, phone } from './phone.ts';
import { siteInBrowser } from './site.ts';

const site = siteInBrowser();
const OF = 'v=1&heat=combi-mains-call&heating=wireless-receiver&additions=condensate-pump';

describe('two systems side by side, at 360 px', () => {
  test('are chosen with a thumb, offline, and stand in the address', async () => {
    const { page, said, context, site: home } = await offlinePhone(site.chromium, {});
    await page.goto(`${home}systems/combi-two-wire/`);
    await page.getByText('Compare it with another system').tap();
    await page.locator('#side-b').waitFor();
    expect(await page.locator('#side-a').inputValue()).toBe('combi-two-wire');
    await isSound(page);
    await page.locator('#side-b').selectOption('combi-wireless');
    await page.locator('.differences').waitFor();
    expect(new URL(page.url()).search).toBe('?a=combi-two-wire&b=combi-wireless');
    expect(await page.locator('.differences').textContent()).toContain('In both:');
    // Cautions stand before the first reading.
    const order = await page.locator('.differences :is(.caution, details)').all();
    expect(await order[0]!.textContent()).toMatch(/GS38.*prove dead/s);
    await page.locator('h2:text-is("Looked at first") ~ table tbody tr').first().waitFor();
    await page.getByText('Working out the first acts').waitFor({ state: 'detached' });
    await isSound(page);
    expect(said).toEqual([]);
    await context.close();
  });

  test('one from parts by its address: what is proven of it stands there, on paper too', async () => {
    const { context } = await phone(site.chromium, { serviceWorkers: 'block' });
    const page = await context.newPage();
    const query = `a=${encodeURIComponent(OF)}&b=combi-wireless-condensate-pump`;
    await page.goto(`${site.server.address}compare/?${query}`);
    await page.locator('.differences').waitFor();
    expect(await page.locator('.compared-titles').textContent()).toMatch(
      /Composed from parts\. Circuit computed.*No person has reviewed/,
    );
    expect(await page.getByText('None is joined otherwise.').count()).toBe(1);
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.proven').isVisible()).toBe(true);
    expect(await page.locator('.compare-sides').isVisible()).toBe(false);
    await context.close();
  });

  test.each([
    ['a=%3Cb%3E&b=combi-wireless', 'The address names no system there is'],
    [
      `a=${encodeURIComponent('v=1&heat=nothing&heating=x')}&b=combi-wireless`,
      'is no part that can stand here',
    ],
  ])('%s is told and harms nothing', async (query, why) => {
    const { context } = await phone(site.chromium, { serviceWorkers: 'block' });
    const page = await context.newPage();
    await page.goto(`${site.server.address}compare/?${query}`);
    await page.getByText(why).waitFor();
    expect(await page.locator('.differences').count()).toBe(0);
    await isSound(page);
    await context.close();
  });
});
