import { expect, test } from 'vitest';
import { beginJob } from './job-steps.ts';
import { isSound, phone } from './phone.ts';
import { siteInBrowser } from './site.ts';
import { outOfView, tapInView } from './thumb.ts';

const site = siteInBrowser();

/** How long the second look at a system's data is held up, ms: pairs of faults wait for it. */
const HELD_UP_MS = 3000;

/** Looks that no single fault accounts for: the MCB down, then up, and nothing else seen to. */
const CONTRADICTORY = ['not seen', 'not seen', 'not seen', 'seen'] as const;

test('while two faults at once are tried it says so, and all else is alive', async () => {
  const { context, said } = await phone(site.chromium, {
    colorScheme: 'light',
    serviceWorkers: 'block',
  });
  const page = await context.newPage();
  let asked = 0;
  await page.route('**/job/combi-two-wire.json', async (route) => {
    asked += 1;
    if (asked > 1) await new Promise((resume) => setTimeout(resume, HELD_UP_MS));
    await route.continue();
  });
  await page.goto(`${site.server.address}job/?system=combi-two-wire`);
  await beginJob(page);
  const act = page.locator('.panel[data-test][aria-busy="false"]');
  const answerNext = async (answer: string) => {
    await act.waitFor();
    const id = await act.getAttribute('data-test');
    await tapInView(page, `.answer-key[data-answer="${answer}"]`);
    await page.waitForFunction(
      (before) => document.querySelector('.panel')?.getAttribute('data-test') !== before,
      id,
    );
    return id;
  };
  for (const answer of CONTRADICTORY.slice(0, -1)) await answerNext(answer);
  const last = await answerNext(CONTRADICTORY.at(-1)!);
  // No dead keys: what is worked out stands in their place, in view, with the ways that are open.
  await page.waitForSelector('.panel[aria-busy="true"]:not([data-test]) >> text=Two at once');
  expect(asked).toBe(2);
  expect(await outOfView(page, '.panel p, .panel button, .last-line button')).toEqual([]);
  expect(await page.locator('.answer-key').count()).toBe(0);
  await isSound(page);
  await tapInView(page, '.panel .plain');
  await page.waitForSelector('.entry');
  await page.tap('.job-tabs >> text=Next');
  // Taking it back does not wait for what it was.
  await tapInView(page, '.last-line >> text=Undo');
  await page.waitForSelector(`.panel[data-test="${last}"][aria-busy="false"]`, {
    timeout: HELD_UP_MS / 2,
  });
  // Answered so again it comes to an act in the end.
  await answerNext(CONTRADICTORY.at(-1)!);
  await page.waitForSelector('.panel:not([aria-busy="true"])');
  // The browser's word for what this test itself asked of it.
  expect(said.filter((line) => !line.includes('blocked by Playwright'))).toEqual([]);
  await context.close();
});

/**
 * All as it should be to the eye, a boiler that runs with nothing calling, and then ohms across
 * the stat that nothing accounts for: the same test is asked for once more.
 */
const DOUBTED = ['seen', 'seen', 'seen', 'seen', 'seen', 'resistance'] as const;

test('what is asked once more is in view too, under what was said of it, which opens', async () => {
  const { context, said } = await phone(site.chromium, { colorScheme: 'light' });
  const page = await context.newPage();
  await page.goto(`${site.server.address}job/?system=combi-two-wire`);
  await beginJob(page);
  const act = page.locator('.panel[data-test][aria-busy="false"]');
  for (const answer of DOUBTED) {
    await act.waitFor();
    const ready = page.locator('.panel > .main-act');
    if (await ready.count()) await ready.tap();
    const before = await page.locator('.echo, .last-line .said').first().textContent();
    await tapInView(page, `.answer-key[data-answer="${answer}"]`);
    await page.waitForFunction(
      (text) => document.querySelector('.last-line .said')?.textContent !== text,
      before,
    );
  }
  await act.waitFor();
  expect(await act.locator('h2').textContent()).toBe('Once more');
  const reach = '.panel button, .panel summary, .last-line button, .so-far > summary';
  expect(await outOfView(page, reach)).toEqual([]);
  // Its verdict stands in one line, and opens to all of it.
  const echo = page.locator('.echo');
  const oneLine = (await echo.boundingBox())!.height;
  expect(await echo.textContent()).toMatch(/; should be: .* \(.*B1.*\)\.$/);
  await tapInView(page, '.echo');
  expect(await echo.getAttribute('aria-expanded')).toBe('true');
  expect((await echo.boundingBox())!.height).toBeGreaterThan(oneLine);
  await isSound(page);
  expect(said).toEqual([]);
  await context.close();
});
