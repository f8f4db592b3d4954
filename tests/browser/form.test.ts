import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violations } from './accessibility.ts';
import { DESK, launch, openTab, PHONE, type TestBrowser } from './harness.ts';

/** A copy of the example firm's folder, and pages served while it is written. */
const firm = mkdtempSync(join(tmpdir(), 'form-'));
const SYSTEM = join(firm, 'content/systems/combi-joint-box.mdx');
let dev: ChildProcess;
let address = '';
let chromium: TestBrowser;

beforeAll(async () => {
  cpSync('tests/example-firm', firm, { recursive: true });
  const settings = readFileSync(join(firm, 'firm.yaml'), 'utf8');
  writeFileSync(
    join(firm, 'firm.yaml'),
    settings.replace(/^features:\n/m, '$&  attic run: { under: Where it runs }\n'),
  );
  const { NODE_ENV, MODE, DEV, PROD, SSR, VITEST, ...env } = process.env;
  dev = spawn(process.execPath, ['src/cli/dev.ts', '--firm', firm], {
    env: { ...env, PORT: String(20_000 + (process.pid % 20_000)) },
  });
  const said: string[] = [];
  address = await new Promise<string>((resolve, reject) => {
    dev.stderr!.on('data', (part) => said.push(String(part)));
    dev.stdout!.on('data', (part) => {
      said.push(String(part));
      const found = /as a form: (\S+)/.exec(said.join(''))?.[1];
      if (found) resolve(found);
    });
    dev.on('exit', () => reject(new Error(said.join(''))));
  });
  chromium = await launch();
});

afterAll(async () => {
  await chromium.close();
  dev.kill();
  rmSync(firm, { recursive: true, force: true });
});

async function opened(query: string, viewport = DESK) {
  const tab = await openTab(chromium.browser, { viewport });
  await tab.page.goto(address + query);
  await tab.page.locator('h1').waitFor();
  return tab;
}

/** Opens all that is folded, and gives a field by its path. */
const field = async (page: Page, path: string) => {
  await page.evaluate(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
  });
  return page.locator(`[id="${path}"]`);
};
const standing = (page: Page, words: RegExp) =>
  page.locator('.standing').filter({ hasText: words }).waitFor();
const RING = '?kind=system&id=combi-joint-box';

describe('entries as a form', () => {
  test('say beside the field what is wrong, and save what is mended, comments kept', async () => {
    const before = readFileSync(SYSTEM, 'utf8');
    const { page, complaints, close } = await opened(RING);
    await standing(page, /In order/);
    const to = (await field(page, 'cables.W3.cores.BN')).locator('select').nth(2);
    const was = await to.inputValue();
    await to.selectOption('Q1.supply L');
    await standing(page, /1 thing wrong/);
    const cores = await field(page, 'cables.W3.cores');
    expect(await cores.locator('.wrong').textContent()).toMatch(
      /core BN of W3 ends at Q1, its other cores end at X1\s*found Q1\.supply L/,
    );
    await to.selectOption(was);
    await page.getByLabel('items.X1.place', { exact: true }).fill('Airing cupboard');
    await standing(page, /In order/);
    await page.getByRole('button', { name: 'Save' }).click();
    await page
      .getByRole('status')
      .filter({ hasText: /Saved in .*Nobody has reviewed it/ })
      .waitFor();
    const after = readFileSync(SYSTEM, 'utf8');
    expect(after).toBe(before.replace(/(title: Joint box\n +place: ).*/, '$1Airing cupboard'));
    expect(complaints).toEqual({ console: [], foreign: [] });
    await close();
  });

  test('keep what was typed when the page is loaded anew, and write over nobody', async () => {
    const { page, close } = await opened(RING);
    await page.getByLabel('title', { exact: true }).fill('Combi through a box');
    await standing(page, /./);
    await page.reload();
    await page.locator('h1', { hasText: 'Combi through a box' }).waitFor();
    const elsewhere = readFileSync(SYSTEM, 'utf8').replace('version: 1', 'version: 2');
    writeFileSync(SYSTEM, elsewhere);
    // The page is loaded anew as the file changes; what was typed stands, and is not written over it.
    await page.getByRole('alert').filter({ hasText: 'changed by somebody else' }).waitFor();
    await page.locator('h1', { hasText: 'Combi through a box' }).waitFor();
    await page.getByRole('button', { name: /^Save/ }).click();
    await page.getByRole('status').filter({ hasText: 'changed by somebody else' }).waitFor();
    expect(readFileSync(SYSTEM, 'utf8')).toBe(elsewhere);
    await page.getByRole('button', { name: 'Take the file as it is now' }).click();
    await page.locator('h1', { hasText: /two-wire control/ }).waitFor();
    expect(await page.getByRole('alert').count()).toBe(0);
    await close();
  });

  test('begin a new one like another, whose words are marked until they are written anew', async () => {
    const { page, close } = await opened('');
    await page.getByLabel('Begin with a copy of').selectOption('combi-two-wire');
    await page.getByLabel('Title').fill('Our combi in the loft');
    // Its file is written, and loads every page anew, before its own page has come.
    const loadedAnew = Promise.withResolvers<void>();
    let documents = 0;
    await page.route(/\/write\/(?:\?.*)?$/, async (route) => {
      if (!route.request().isNavigationRequest()) return route.continue();
      documents += 1;
      if (documents === 1) await loadedAnew.promise;
      else loadedAnew.resolve();
      // The first is of a load that was given up.
      await route.continue().catch(() => {});
    });
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.locator('h1', { hasText: 'Our combi in the loft' }).waitFor();
    const summary = await field(page, 'summary');
    await summary.locator('.copied').waitFor();
    await summary.locator('textarea').fill('Ours, in the loft.');
    await expect.poll(() => summary.locator('.copied').count()).toBe(0);
    const text = readFileSync(join(firm, 'content/systems/our-combi-in-the-loft.mdx'), 'utf8');
    expect(text).toMatch(/^title: Our combi in the loft$/m);
    expect(text).not.toMatch(/^(review|checked):/m);
    await close();
  });

  test('offer the firm’s own features, and readers choose by them', async () => {
    const before = readFileSync(SYSTEM, 'utf8');
    const { page, close } = await opened(RING);
    const features = await field(page, 'features');
    expect(await features.getByLabel('joint box').isChecked()).toBe(true);
    await features.getByLabel('attic run').check();
    await standing(page, /In order/);
    await page.getByRole('button', { name: 'Save' }).click();
    await expect
      .poll(() => readFileSync(SYSTEM, 'utf8'))
      .toContain('features: [joint box, attic run]');
    await close();
    const reader = await opened('../systems/');
    const shown = reader.page.locator('.system-entry:visible');
    expect(await shown.count()).toBeGreaterThan(3);
    await reader.page
      .locator('fieldset', { hasText: 'Where it runs' })
      .locator('label', { hasText: 'Attic run' })
      .click();
    expect(await shown.locator('strong').allTextContents()).toEqual([
      'Combi boiler, two-wire control through a joint box',
    ]);
    await reader.close();
    writeFileSync(SYSTEM, before);
  });

  test('offer a rule by its check, and a mode by what must be seen', async () => {
    const rule = await opened('?kind=standard&id=volt-drop');
    expect(await rule.page.getByLabel('rule: check').inputValue()).toBe('volt drop');
    await rule.close();
    const { page, close } = await opened(RING);
    const expects = await field(page, 'modes.heating.expect');
    const burner = expects.getByLabel(/E1: Boiler firing/);
    expect(await burner.inputValue()).toBe('true');
    await burner.selectOption('false');
    await standing(page, /wrong/);
    expect(await expects.locator('.wrong').first().textContent()).toMatch(
      /this expects “Boiler not firing”; the circuit gives “Boiler firing”/,
    );
    await close();
  });

  test('answer to no other page', async () => {
    const asked = (headers: Record<string, string>) =>
      fetch(`${address}save/`, {
        method: 'POST',
        headers,
        body: JSON.stringify({
          kind: 'system',
          id: 'combi-joint-box',
          base: '',
          values: {},
          body: '',
        }),
      });
    const before = readFileSync(SYSTEM, 'utf8');
    for (const headers of [
      { 'content-type': 'text/plain' },
      { 'content-type': 'application/json', 'sec-fetch-site': 'cross-site' },
      { 'content-type': 'application/json' },
    ] as Record<string, string>[])
      expect([400, 403]).toContain((await asked(headers)).status);
    for (const id of ['../../firm', 'no-such-system'])
      expect(
        (await fetch(`${address}entry/?kind=system&id=${encodeURIComponent(id)}`)).status,
      ).toBe(400);
    expect(readFileSync(SYSTEM, 'utf8')).toBe(before);
  });

  test.each([PHONE, DESK])('fit $width px, and axe finds nothing', async (viewport) => {
    for (const query of ['', RING]) {
      const { page, close } = await opened(query, viewport);
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
      ).toBeLessThanOrEqual(0);
      await field(page, 'items');
      expect(await violations(page)).toEqual([]);
      await close();
    }
  });
});
