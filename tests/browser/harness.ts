import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { serve } from '../../src/cli/serve.ts';
import { isPage, type Manifest } from '../../src/offline/manifest.ts';
import { launch as launchBrowser, type OwnBrowser } from '../../src/publish/browser.ts';
import { PAGE_PATIENCE } from '../support/patience.ts';
import { DIST } from '../support/site-folder.ts';

export type TestBrowser = OwnBrowser;

/** A browser of one's own, whose pages are waited for however slow the machine is. */
export async function launch(...asked: Parameters<typeof launchBrowser>): Promise<TestBrowser> {
  const own = await launchBrowser(...asked);
  own.browser.on('context', (context) => context.setDefaultTimeout(PAGE_PATIENCE));
  return own;
}

/** The narrowest phone the site is made for, and a desk. */
export const PHONE = { width: 360, height: 740 };
export const DESK = { width: 1280, height: 900 };

/** The built site as its manifest tells it. */
export function readManifest(folder = DIST): Manifest {
  try {
    return JSON.parse(readFileSync(join(folder, 'offline/manifest.json'), 'utf8'));
  } catch {
    throw new Error(`There is no built site in ${folder}/: run npm run build before these tests`);
  }
}

/** Addresses of all pages from the site's base, as a reader's address bar shows them. */
export const pagesOf = (manifest: Manifest): string[] =>
  manifest.packs
    .flatMap(({ files }) => files)
    .filter(isPage)
    .map((path) => path.replace(/index\.html$/, ''));

/** HTML of a page as it was built. */
export const builtPage = (path: string, folder = DIST): string =>
  readFileSync(
    join(folder, path.endsWith('/') || path === '' ? `${path}index.html` : path),
    'utf8',
  );

/** One page of each kind the site has, for tests that need not open all of them. */
export function onePageOfEachKind(manifest = readManifest()): string[] {
  const kinds = new Map<string, string>();
  for (const path of pagesOf(manifest)) {
    const [folder = '', ...rest] = path.split('/').filter(Boolean);
    // What lies below an entry's page is a kind of its own: systems/one/sequences.
    const kind = rest.length > 0 ? `${folder}/one/${rest[1] ?? ''}` : folder;
    if (!kinds.has(kind)) kinds.set(kind, path);
  }
  return [...kinds.values(), 'no/such/page/'];
}

/** Serves a folder on a port of its own until stopped. */
export const serveFolder = (root = DIST, port = 0) => serve({ root, port });

/** What a page did that it must not do. */
export interface Complaints {
  /** Errors and warnings on the console, and exceptions nobody caught. */
  readonly console: string[];
  /** Addresses of other hosts that were asked for. */
  readonly foreign: string[];
}

/**
 * What the driver itself says on the console of a page whose worker it was asked to block, which
 * a test does that is not about saving: each profile would save the whole site anew.
 */
export const isDriversWord = (text: string): boolean =>
  text === 'Service Worker registration blocked by Playwright';

/** Opens an empty page of a browser context of its own, and records what it must not do. */
export async function openTab(
  browser: Browser,
  options: BrowserContextOptions = {},
): Promise<{
  readonly page: Page;
  readonly complaints: Complaints;
  readonly close: () => Promise<void>;
}> {
  const context = await browser.newContext({ viewport: PHONE, ...options });
  const page = await context.newPage();
  const complaints: Complaints = { console: [], foreign: [] };
  page.on('pageerror', (error) => complaints.console.push(String(error)));
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type()) && !isDriversWord(message.text()))
      complaints.console.push(`${message.text()} (${message.location().url})`);
  });
  context.on('request', (request) => {
    const { hostname, protocol } = new URL(request.url());
    if (protocol.startsWith('http') && hostname !== 'localhost')
      complaints.foreign.push(request.url());
  });
  return { page, complaints, close: () => context.close() };
}

/** Waits until the footer says that the whole site is saved, and returns what it says. */
export async function waitUntilSaved(page: Page): Promise<string> {
  const status = page.locator('#offline-status', { hasText: 'Saved for offline' });
  await status.waitFor({ state: 'attached' });
  return (await status.textContent()) ?? '';
}

/** Height of a page in its own letters, which come after it and are narrower than others, px. */
export const heightOf = (page: Page): Promise<number> =>
  page.evaluate(async () => {
    await document.fonts.ready;
    return document.documentElement.scrollHeight;
  });
