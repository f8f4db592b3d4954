import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SEED } from '../support/property.ts';
import { random } from '../support/random.ts';
import { DIST } from '../support/site-folder.ts';
import {
  builtPage,
  launch,
  onePageOfEachKind,
  openTab,
  pagesOf,
  readManifest,
  serveFolder,
  type TestBrowser,
  waitUntilSaved,
} from './harness.ts';

/** Pages that are opened beside one of each kind: how a page is answered hangs on its kind alone. */
const DRAWN = 40;

let chromium: TestBrowser;
let tab: Awaited<ReturnType<typeof openTab>>;
let site: string;
let saved: string;
const manifest = readManifest();

/** What a page gets at the addresses of files: the hash of what comes, or how it fails. */
const comeAs = (page: Page, files: readonly string[]) =>
  page.evaluate(async (paths) => {
    const come: [path: string, hash: string][] = [];
    for (const path of paths) {
      const response = await fetch(`/${path}`);
      const hash = new Uint8Array(
        await crypto.subtle.digest('SHA-256', await response.arrayBuffer()),
      );
      come.push([
        path,
        response.ok
          ? [...hash].map((byte) => byte.toString(16).padStart(2, '0')).join('')
          : `status ${response.status}`,
      ]);
    }
    return come;
  }, files);

/** One visit to the first page, then no server any more. */
beforeAll(async () => {
  chromium = await launch();
  const server = await serveFolder();
  site = server.address;
  tab = await openTab(chromium.browser);
  await tab.page.goto(site);
  saved = await waitUntilSaved(tab.page);
  await server.stop();
});
afterAll(() => chromium.close());

describe('after one visit, with no signal,', () => {
  test('the footer says what is saved', () => {
    expect(saved).toMatch(
      new RegExp(
        `^Saved for offline: ${manifest.pages} pages, [0-9.]+ MB, dated \\d{1,2} [A-Z][a-z]{2} \\d{4}\\. Last checked .+\\.$`,
      ),
    );
  });

  test('nothing answers at the address but what is saved', async () => {
    await expect(fetch(site)).rejects.toThrow();
  });

  test('every file that is saved comes as it was built', async () => {
    expect(pagesOf(manifest)).toHaveLength(manifest.pages);
    // What search reads is kept unpacked and turned about: searching offline reads that.
    const files = manifest.packs
      .flatMap(({ files }) => files)
      .filter((path) => !path.startsWith('pagefind/'));
    const built = files.map((path) => [
      path,
      createHash('sha256')
        .update(readFileSync(join(DIST, path)))
        .digest('hex'),
    ]);
    expect(await comeAs(tab.page, files)).toEqual(built);
  });

  test(`pages open in their styles: one of each kind, and ${DRAWN} more drawn by ${SEED}`, async () => {
    const { pick } = random(SEED);
    const drawn = Array.from({ length: DRAWN }, () => pick(pagesOf(manifest)));
    const kinds = onePageOfEachKind(manifest).filter((path) => !path.startsWith('no/'));
    for (const path of new Set([...kinds, ...drawn])) {
      const response = await tab.page.goto(site + path, { waitUntil: 'load' });
      expect([path, response?.status()]).toEqual([path, 200]);
      expect(await response?.text()).toBe(builtPage(path));
      const styled = await tab.page.evaluate(() => document.styleSheets[0]!.cssRules.length > 10);
      expect([path, styled]).toEqual([path, true]);
    }
    expect(tab.complaints).toEqual({ console: [], foreign: [] });
  });
});
