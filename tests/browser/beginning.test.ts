import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { SHAPES } from '../job/shapes.ts';
import { beginJob } from './job-steps.ts';
import { isSound, phone } from './phone.ts';
import { ONE_PAGE, siteInBrowser } from './site.ts';

const site = siteInBrowser(ONE_PAGE);

async function openJobs(at: string) {
  const { context, said } = await phone(site.chromium, {
    colorScheme: 'light',
    serviceWorkers: 'block',
  });
  const page = await context.newPage();
  await page.goto(`${site.server.address}job/${at}`);
  return { page, said, close: () => context.close() };
}

const key = (page: Page, words: string) =>
  page.locator('.answer-key', { has: page.locator(`b:text-is("${words}")`) });

describe('a job begins with the complaint', () => {
  test('then since when, then the system by looking, each question with a way out', async () => {
    const { page, said, close } = await openJobs('#new');
    await isSound(page);
    expect(await page.locator('.answer-key:visible').count()).toBe(6);
    await key(page, 'No heating, hot water is fine').tap();
    expect(await page.locator('.look-first').textContent()).toMatch(/Look before you open/);
    await isSound(page);
    await key(page, 'It worked until now').tap();
    await isSound(page);
    const left = async () =>
      Number(
        /^\d+/.exec((await page.locator('.choose-system [role=status]').first().textContent())!),
      );
    const all = await left();
    // Who cannot tell loses none; who can is left with fewer.
    await page.tap('.asked-one >> text=Don’t know');
    expect(await left()).toBe(all);
    await page.tap('text=Back a question');
    await key(page, 'Combi').tap();
    expect(await left()).toBeLessThan(all);
    await key(page, 'Two-wire control').tap();
    await isSound(page);
    await page.locator('.pick-list button', { hasText: 'two-wire room stat' }).first().tap();
    // What the complaint shows is entered: it is not asked again.
    await page.waitForSelector('.panel[data-test]');
    expect(await page.locator('h1').textContent()).toBe('No heating, hot water is fine');
    await page.tap('.job-tabs >> text=Readings');
    expect(await page.locator('.entry').count()).toBe(2);
    // Nobody has looked yet: it says so, until somebody does.
    expect(await page.locator('.entry .told').count()).toBe(2);
    await isSound(page);
    await page.tap('.job-tabs >> text=Seen');
    await page.locator('.mode-block[open] >> text=I have seen it so').first().tap();
    await page.tap('.job-tabs >> text=Readings');
    expect(await page.locator('.entry .told').count()).toBe(1);
    expect(said).toEqual([]);
    await close();
  });

  test('goes on without a system, kept, until it is known; and takes that back', async () => {
    const { page, said, close } = await openJobs('?complaint=no-heating-hot-water-works');
    await key(page, 'It comes and goes').tap();
    await page.tap('text=I do not know this system yet');
    await page.waitForSelector('#job-notes');
    await isSound(page);
    expect(await page.locator('.job-tabs').count()).toBe(0);
    await page.fill('#job-notes', 'Grey box on the landing');
    // Once it is on the screen it is saved.
    await page.waitForTimeout(300);
    await page.reload();
    await page.waitForSelector('#job-notes');
    expect(await page.locator('#job-notes').inputValue()).toBe('Grey box on the landing');
    await page.tap('text=By its name');
    await page.locator('.choose-system .fold .pick-list button').first().tap();
    await page.waitForSelector('.panel');
    expect(await page.locator('.undone').textContent()).toMatch(/^the system: /);
    await page.tap('.last-line >> text=Undo');
    await page.waitForSelector('#job-notes');
    // It stands on the list under its complaint.
    await page.goto(`${site.server.address}job/#all`);
    await page.locator('.job-link', { hasText: 'No heating, hot water is fine' }).waitFor();
    expect(said).toEqual([]);
    await close();
  });

  test('at an address with a stroke too many it begins all the same', async () => {
    const { context, said } = await phone(site.chromium, {
      colorScheme: 'light',
      serviceWorkers: 'block',
    });
    const page = await context.newPage();
    await page.goto(`${site.server.address}/job/?system=combi-two-wire`);
    expect(new URL(page.url()).pathname).toBe('//job/');
    await beginJob(page);
    await page.waitForSelector('.panel[data-test]');
    expect(page.url()).toMatch(/\/\/job\/#[0-9a-f-]{36}$/);
    expect(said).toEqual([]);
    await context.close();
  });

  test('names what an address asks for and nobody has', async () => {
    const { page, close } = await openJobs('?system=steam-engine&complaint=no-such');
    await page.waitForSelector('text=The system in the address is not in this reference');
    await isSound(page);
    await close();
  });
});

test('a job whose system was withdrawn says so, loses nothing, and can be taken away', async () => {
  const { page, close } = await openJobs('');
  const { file } = SHAPES.find(({ name }) => name === 'v4')!;
  const job = {
    ...file.job,
    system: 'withdrawn-system',
    systemTitle: 'A withdrawn system',
    photos: [],
    remarks: [],
  };
  await page.locator('input[type=file]').setInputFiles({
    name: 'job.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify({ ...file, job, pictures: [] })),
  });
  await page.locator('.job-link').tap();
  await page.waitForSelector('text=no longer has the system of this job, A withdrawn system');
  await isSound(page);
  const download = page.waitForEvent('download');
  await page.tap('text=Export');
  expect((await download).suggestedFilename()).toMatch(/\.json$/);
  await close();
});

test('a way out of what cannot be done: the planner goes round it, and it can be brought back', async () => {
  const { page, said, close } = await openJobs('?system=combi-two-wire');
  await beginJob(page);
  const panel = page.locator('.panel[aria-busy=false]');
  await panel.waitFor();
  const first = await panel.getAttribute('data-test');
  await page.tap('text=Can’t do this');
  await isSound(page);
  await page.tap('text=Can’t tell from here');
  await page.waitForFunction(
    (before) =>
      document.querySelector('.panel[aria-busy=false]')?.getAttribute('data-test') !== before,
    first,
  );
  await page.tap('.left-out >> text=Bring back');
  await page.waitForFunction(
    (before) =>
      document.querySelector('.panel[aria-busy=false]')?.getAttribute('data-test') === before,
    first,
  );
  expect(said).toEqual([]);
  await close();
});

test('an act is read aloud where the phone has a voice of its own, and only there', async () => {
  const { context } = await phone(site.chromium, { colorScheme: 'light', serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.goto(`${site.server.address}job/?system=combi-two-wire`);
  await beginJob(page);
  await page.waitForSelector('.panel[data-test]');
  expect(await page.locator('text=Read aloud').count()).toBe(0);
  await context.addInitScript(() => {
    const said: string[] = [];
    const voice = { lang: 'en-GB', localService: true } as SpeechSynthesisVoice;
    Object.defineProperty(globalThis, 'SpeechSynthesisUtterance', {
      value: class {
        voice: unknown;
        lang = '';
        readonly text: string;
        constructor(text: string) {
          this.text = text;
        }
      },
    });
    Object.defineProperty(globalThis, 'speechSynthesis', {
      value: {
        getVoices: () => [voice],
        cancel: () => undefined,
        speak: ({ text }: { text: string }) => said.push(text),
        said,
      },
    });
  });
  await page.reload();
  await page.tap('text=Read aloud');
  const said = await page.evaluate(() => (speechSynthesis as unknown as { said: string[] }).said);
  expect(said).toHaveLength(1);
  const what = await page.locator('.panel .next-what').textContent();
  expect(said[0]).toContain(what!.trim());
  await context.close();
});
