import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { formerNamesIn } from '../../src/entries/index.ts';
import { checkSources } from '../../src/firm/index.ts';
import { folders } from '../../src/folder/index.ts';
import { writeOfflinePacks } from '../../src/offline/build/index.ts';
import { buildSearchIndex } from '../../src/search/build/index.ts';
import { DIST } from '../support/site-folder.ts';
import { cuttingProxy } from './cutting-proxy.ts';
import {
  launch,
  PHONE,
  readManifest,
  serveFolder,
  type TestBrowser,
  waitUntilSaved,
} from './harness.ts';

/** What one edited word may cost of the whole, worker and all. */
const SHARE = 0.05;

let chromium: TestBrowser;
beforeAll(async () => {
  chromium = await launch();
});
afterAll(() => chromium.close());

/**
 * Builds a site again after a word was added to a text: in every page and file where the text
 * stands, in the search index, and in the packs.
 */
async function addWord(folder: string, before: string, after: string): Promise<number> {
  const { entries } = checkSources();
  const escaped = (text: string) => text.replaceAll("'", '&#39;').replaceAll('"', '&quot;');
  const edit = async (path: string) => {
    const text = await readFile(join(folder, path), 'utf8');
    const edited = text.replaceAll(before, after).replaceAll(escaped(before), escaped(after));
    if (edited !== text) await writeFile(join(folder, path), edited);
    return edited !== text;
  };
  let changed = 0;
  for (const { path } of await folders.list(folder))
    if (/\.(html|json)$/.test(path) && !/^(data|offline|schemas)\//.test(path))
      changed += Number(await edit(path));
  await buildSearchIndex(folder, entries);
  await edit('search/names.json');
  const former = formerNamesIn(entries);
  await writeOfflinePacks(folder, { version: 'second', date: '2030-01-02' }, { former });
  return changed;
}

test('one word added to a system’s summary costs a phone at most a twentieth of the whole', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'site-'));
  await cp(DIST, folder, { recursive: true });
  const server = await serveFolder(folder);
  const proxy = await cuttingProxy(server.address);
  const context = await chromium.browser.newContext({ viewport: PHONE });
  try {
    const page = await context.newPage();
    await page.goto(proxy.address);
    await waitUntilSaved(page);
    // The largest system's page is the dearest to change.
    const { summary } = checkSources().entries.systems.get('heat-only-condensate-pump')!.data;
    const [first = '', ...rest] = summary.split(' ');
    const changed = await addWord(folder, summary, [first, 'very', ...rest].join(' '));
    expect(changed).toBeGreaterThan(1);
    proxy.bytes = 0;
    proxy.asked.length = 0;
    await page.locator('button', { hasText: 'Check for a newer' }).click();
    await page.locator('#offline-offer', { hasText: 'is ready' }).waitFor();
    const packs = proxy.asked.filter((path) => path.endsWith('.pack'));
    expect(packs.length).toBeGreaterThan(0);
    expect(proxy.bytes / readManifest(folder).bytes).toBeLessThanOrEqual(SHARE);
    // What came is the edited page, and search finds the word in it.
    await page.locator('#offline-offer button').click();
    await page.locator('.built.told', { hasText: 'second' }).first().waitFor();
    await proxy.stop();
    await page.goto(`${proxy.address}systems/heat-only-condensate-pump/`);
    expect(await page.locator('main').textContent()).toContain(`${first} very`);
    await page.goto(`${proxy.address}search/?q=condensate`);
    await page.locator('#search-results li').first().waitFor();
  } finally {
    await context.close();
    await proxy.stop();
    await server.stop();
    await rm(folder, { recursive: true });
  }
});
