import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { beginJob, turnTo } from './job-steps.ts';
import { phone } from './phone.ts';
import { ONE_PAGE, siteInBrowser } from './site.ts';

const site = siteInBrowser(ONE_PAGE);

/** What the phone's own sheet does with what it is handed. */
type Sheet = 'takes it' | 'is closed' | 'refuses' | 'is not there';

/** A phone whose sheet does so; what it was handed stands at the root of the page. */
async function phoneWhose(sheet: Sheet) {
  const { context, said } = await phone(site.chromium, {
    serviceWorkers: 'block',
    permissions: ['clipboard-read', 'clipboard-write'],
  });
  await context.addInitScript((does) => {
    const share = async (what: ShareData = {}) => {
      document.documentElement.dataset.handed = JSON.stringify(what);
      if (does === 'is closed') throw new DOMException('closed', 'AbortError');
      if (does === 'refuses') throw new DOMException('not allowed', 'NotAllowedError');
    };
    Object.defineProperty(Navigator.prototype, 'share', {
      configurable: true,
      value: does === 'is not there' ? undefined : share,
    });
  }, sheet);
  return {
    page: await context.newPage(),
    /** What the page complained of; that there is no worker is this test's own doing. */
    complaints: () => said.filter((one) => !one.startsWith('Service Worker regist')),
    close: () => context.close(),
  };
}

const handed = async (page: Page): Promise<ShareData> =>
  JSON.parse((await page.locator('html').getAttribute('data-handed')) ?? '{}') as ShareData;

interface Place {
  readonly name: string;
  readonly open: (page: Page, address: string) => Promise<void>;
  /** The button that shares. */
  readonly button: string;
  /** Where it says what came of it. */
  readonly told: string;
  /** What is handed on. */
  readonly what: (address: string) => ShareData;
  readonly refused: RegExp;
}

const PLACES: readonly Place[] = [
  {
    name: 'a page',
    open: async (page, address) => {
      await page.goto(`${address}systems/combi-two-wire/`);
    },
    button: '[data-act="share"]',
    told: '[data-act="share"]',
    what: (address) => ({
      title: expect.stringContaining('Combi boiler with two-wire room stat'),
      url: `${address}systems/combi-two-wire/`,
    }),
    refused: /^Not taken: copy the address$/,
  },
  {
    name: 'a report',
    open: async (page, address) => {
      await page.goto(`${address}report/?page=systems/combi-two-wire/readings/`);
      await page.locator('#report-version', { hasText: /built/ }).waitFor();
      await page.fill('#report-seen', 'It says live; I read nothing.');
    },
    button: '#report-share',
    told: '#report-said',
    what: () => ({
      title: 'This page is wrong',
      text: expect.stringMatching(
        /^This page is wrong: systems\/combi-two-wire\/readings\/\n[\s\S]*\n\{"proveline":"field".*"seen":"It says live; I read nothing\.".*\}\n$/,
      ),
    }),
    refused: /^This phone did not take it: copy it as text, or save the file\.$/,
  },
  {
    name: 'a finished visit',
    open: async (page, address) => {
      await finishedJob(page, address);
      await page.selectOption('#hand-over-cause', 'setting');
    },
    button: '.hand-over button:has-text("Share the visit")',
    told: '.hand-over .said',
    what: () => ({
      title: 'A finished visit',
      text: expect.stringMatching(/\n\{"proveline":"field".*"cause":"setting".*\}\n$/),
    }),
    refused: /^This phone did not take it: copy it as text, or save the file\.$/,
  },
  {
    name: 'a record',
    open: finishedJob,
    button: 'button:text-is("Share")',
    told: 'section[aria-labelledby="record-title"] > .said',
    what: () => ({
      title: expect.stringContaining('Combi boiler'),
      text: expect.stringContaining('New batteries'),
    }),
    refused: /^This phone did not take it: print the record, or export the job\.$/,
  },
];

async function finishedJob(page: Page, address: string): Promise<void> {
  await page.goto(`${address}job/?system=combi-two-wire`);
  await beginJob(page);
  await turnTo(page, 'Record');
  await page.fill('#repair-typed', 'New batteries');
  await page.tap('text=Enter this repair');
  await page.tap('text=Finish the job');
  await page.locator('#hand-over-title').waitFor();
}

describe.each(PLACES)('$name', ({ open, button, told, what, refused }) => {
  test.each(['takes it', 'is closed', 'refuses'] as const)(
    'is handed to the phone’s own sheet, which %s',
    async (sheet) => {
      const { page, complaints, close } = await phoneWhose(sheet);
      await open(page, site.server.address);
      const before = await page.locator(told).textContent();
      await page.locator(button).tap();
      await expect.poll(() => handed(page)).toEqual(what(site.server.address));
      if (sheet === 'refuses')
        await expect.poll(() => page.locator(told).textContent()).toMatch(refused);
      // Whoever closes it knows it, and nothing went wrong.
      else if (sheet === 'is closed') expect(await page.locator(told).textContent()).toBe(before);
      expect(complaints()).toEqual([]);
      await close();
    },
  );

  test('is offered no sheet where the phone has none', async () => {
    const { page, complaints, close } = await phoneWhose('is not there');
    await open(page, site.server.address);
    expect(await page.locator(button).filter({ visible: true }).count()).toBe(0);
    expect(complaints()).toEqual([]);
    await close();
  });
});
