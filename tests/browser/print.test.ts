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

/** The largest system. */
const LARGEST = 'heat-only-condensate-pump';
/** A page of each kind that is printed. */
const PAPERS = [
  `systems/${LARGEST}/`,
  `systems/${LARGEST}/sheet/`,
  `systems/${LARGEST}/readings/`,
  `systems/${LARGEST}/wiring/`,
  'symptoms/no-heating-no-hot-water/',
  'procedures/safe-isolation/',
];

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

describe('on a printer without colours', () => {
  test.each(['light', 'dark'] as const)('readings are told apart, in %s', async (colorScheme) => {
    const { page } = tab;
    await page.emulateMedia({ media: 'print', colorScheme });
    await page.goto(`${server.address}systems/${LARGEST}/sheet/`);
    const looks = await page.evaluate(() => {
      const found: Record<string, string[]> = {};
      for (const one of document.querySelectorAll<HTMLElement>('.readings-table td .v')) {
        if (!one.checkVisibility()) continue;
        const { borderLeftWidth, outlineStyle, color, backgroundColor } = getComputedStyle(one);
        const figure = one.querySelector('b');
        const drawn = figure ? getComputedStyle(figure) : getComputedStyle(one, '::after');
        const text = figure ? figure.textContent : (one.dataset.figure ?? '');
        const look = [
          Number.parseFloat(borderLeftWidth) >= 2.5 ? 'bar' : 'no bar',
          outlineStyle === 'solid' ? 'frame' : 'no frame',
          Number(drawn.fontWeight) > 600 ? 'bold' : 'light',
          Number.parseFloat(drawn.fontSize) >= 8 && /^\d+$/.test(text) ? 'figure' : 'no figure',
          color,
          backgroundColor,
        ].join(', ');
        const kind = one.classList[1]!;
        found[kind] = [...new Set([...(found[kind] ?? []), look])];
      }
      return found;
    });
    const black = 'rgb(0, 0, 0), rgba(0, 0, 0, 0)';
    expect(looks).toEqual({
      live: [`bar, no frame, bold, figure, ${black}`],
      between: [`no bar, frame, light, figure, ${black}`],
      dead: [`no bar, no frame, light, figure, ${black}`],
    });
    await page.emulateMedia({ media: null, colorScheme: null });
  });

  test.each(['', ...PAPERS])('in dark mode /%s is printed in black on white', async (path) => {
    const { page } = tab;
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    await page.goto(server.address + path);
    const wrong = await page.evaluate(() => {
      const brightness = (colour: string) => {
        const [r, g, b, a = 1] = colour.match(/[\d.]+/g)!.map(Number);
        return a === 0 ? undefined : (0.2126 * r! + 0.7152 * g! + 0.0722 * b!) / 255;
      };
      const found = new Set<string>();
      for (const one of document.querySelectorAll<HTMLElement>('body, main, main *')) {
        const own = [...one.childNodes].some(
          (node) => node.nodeType === 3 && node.textContent?.trim(),
        );
        if (!one.checkVisibility() || one.closest('svg')) continue;
        const { color, backgroundColor } = getComputedStyle(one);
        if (own && (brightness(color) ?? 1) > 0.35) found.add(`${one.className} ${color}`);
        if ((brightness(backgroundColor) ?? 1) < 0.9 && !one.matches('.swatch'))
          found.add(`${one.className} on ${backgroundColor}`);
      }
      return [...found];
    });
    expect(wrong).toEqual([]);
    await page.emulateMedia({ media: null, colorScheme: null });
  });
});

describe('a complaint on paper', () => {
  test('holds the five likeliest causes of each system with what to do, and no more', async () => {
    const { page } = tab;
    await page.emulateMedia({ media: 'print' });
    await page.goto(`${server.address}symptoms/fuse-blows/`);
    const causes = await page.locator('.causes').evaluateAll((all) =>
      all.map((one) =>
        [...one.querySelectorAll('.cause-groups > li')].map((li) => ({
          isShown: li.checkVisibility({ contentVisibilityAuto: true }),
          says: [...li.querySelectorAll('p')].map((p) => p.textContent!),
        })),
      ),
    );
    const paper = bare(textOfPages(await page.pdf({ preferCSSPageSize: true })).join(''));
    await page.emulateMedia({ media: null });
    expect(causes.length).toBeGreaterThan(4);
    expect(causes.some((own) => own.length > 5)).toBe(true);
    for (const own of causes) {
      expect(own.map(({ isShown }) => isShown)).toEqual(own.map((_, at) => at < 5));
      for (const { says } of own.slice(0, 5))
        expect(says.filter((line) => !paper.includes(bare(line)))).toEqual([]);
    }
    expect(paper).toContain(bare('27 repairs; the likeliest:'));
  });
});

/** A terminal as the wiring table names it: `E1.SL` is printed `SL (E1)`. */
const spoken = (terminal: string) => {
  const [item, name] = terminal.split('.') as [string, string];
  return `${terminalWords(name)} (${item})`;
};
