import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { IndexData, SystemData } from '../../src/data/index.ts';
import { terminalWords } from '../../src/words/index.ts';
import { DIST } from '../support/site-folder.ts';
import { launch, openTab, serveFolder, type TestBrowser } from './harness.ts';
import { textOfPages } from './pdf-text.ts';

const read = (path: string): unknown => JSON.parse(readFileSync(join(DIST, 'data', path), 'utf8'));
const systems = IndexData.parse(read('index.json')).systems;

let chromium: TestBrowser;
let server: Awaited<ReturnType<typeof serveFolder>>;
let tab: Awaited<ReturnType<typeof openTab>>;

beforeAll(async () => {
  chromium = await launch();
  server = await serveFolder();
  tab = await openTab(chromium.browser, { serviceWorkers: 'block' });
});
afterAll(async () => {
  await chromium.close();
  await server.stop();
});

/** Letters and figures alone: lines break anywhere on paper, and fonts join f and i. */
const bare = (text: string) => text.normalize('NFKC').replace(/\s+/g, '').toLowerCase();

describe.each(systems)('$id on paper', ({ id, title, data, checked }) => {
  test('is one sheet with all that is needed beside the boiler', async () => {
    const { page } = tab;
    await page.goto(`${server.address}systems/${id}/sheet/`);
    const cautions = await page.locator('#cautions li').allTextContents();
    const steps = await page.locator('.main-lines li').allTextContents();
    const pages = textOfPages(await page.pdf({ preferCSSPageSize: true }));
    expect(pages.length).toBeGreaterThan(0);
    expect(pages.length).toBeLessThanOrEqual(2);

    const paper = bare(pages.join(''));
    const system = SystemData.parse(read(data));
    const year = checked!.slice(0, 4);
    expect(cautions.length).toBeGreaterThan(1);
    expect(steps.length).toBeGreaterThan(0);
    const wanted = [
      title,
      ...cautions,
      ...steps.map((step) => step.replace(/\s+/g, ' ').slice(0, 20)),
      ...['Wiring table', 'Readings', 'Test sequence', 'Wiring version', year],
      ...system.modes.map((mode) => mode.title),
      ...system.wiring.map(({ from, to }) => `${spoken(from)}${spoken(to)}`),
      ...system.sequences.map((sequence) => sequence.title),
    ];
    expect(wanted.filter((text) => !paper.includes(bare(text)))).toEqual([]);
  });

  test('leaves out what only a screen can use', async () => {
    const { page } = tab;
    await page.goto(`${server.address}systems/${id}/sheet/`);
    const parts = ['.site-header', '.site-footer', '.page-bar', '.copy-button'];
    const shown = () =>
      Promise.all(parts.map((part) => page.locator(part).filter({ visible: true }).count()));
    for (const count of await shown()) expect(count).toBeGreaterThan(0);
    await page.emulateMedia({ media: 'print' });
    expect(await shown()).toEqual(parts.map(() => 0));
    await page.emulateMedia({ media: null });
  });
});

/** A terminal as the wiring table names it: `E1.SL` is printed `SL (E1)`. */
const spoken = (terminal: string) => {
  const [item, name] = terminal.split('.') as [string, string];
  return `${terminalWords(name)} (${item})`;
};
