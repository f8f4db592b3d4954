import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import subset from 'subset-font';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { shippedNetworks } from '../support/content.ts';
import {
  launch,
  openTab,
  pagesOf,
  readManifest,
  serveFolder,
  type TestBrowser,
} from './harness.ts';
import { facesOf, textOfPages } from './pdf-text.ts';

/** Sides of paper of a system's sheet: one for a combi with nothing but its control, else front and back. */
const isOneSide = (id: string): boolean => {
  const { system, items } = shippedNetworks().get(id)!;
  const families = [...items.values()].map(({ device }) => device.family);
  const isMore = families.includes('pump') || families.includes('wiring centre');
  return system.arrangement === 'combi' && !isMore;
};
const sheets = pagesOf(readManifest()).filter((path) => /^systems\/[a-z-]+\/sheet\/$/.test(path));
const expected = Object.fromEntries(
  sheets.map((path) => [path, isOneSide(path.split('/')[1]!) ? 1 : 2]),
);

let server: Awaited<ReturnType<typeof serveFolder>>;
/** Folder of the only fonts of a second machine, whose letters are wider than those served. */
let wide: string;

/** A browser with the fonts of this machine. */
let own: TestBrowser;

beforeAll(async () => {
  own = await launch();
  server = await serveFolder();
  wide = join(await mkdtemp(join(tmpdir(), 'machine-')), 'fonts');
  await mkdir(wide);
  const { resolve } = createRequire(import.meta.url);
  for (const style of ['Regular', 'Bold']) {
    const font = await readFile(resolve(`inter-ui/web/Inter-${style}.woff2`));
    const whole = { targetFormat: 'sfnt', keepAllGlyphs: true } as const;
    await writeFile(join(wide, `${style}.ttf`), await subset(font, undefined, whole));
  }
});
afterAll(async () => {
  await own.close();
  await server.stop();
  await rm(join(wide, '..'), { recursive: true, force: true });
});

/** Prints every system's sheet with a machine's fonts. */
async function printed(
  fonts: string | undefined,
  prepare: (page: Page) => Promise<unknown> = async () => {},
): Promise<{ sides: Record<string, number>; empty: string[]; faces: string[] }> {
  const { browser, close } = await launch(fonts);
  const { page } = await openTab(browser, { serviceWorkers: 'block' });
  await prepare(page);
  await page.goto(server.address, { waitUntil: 'networkidle' });
  const sides: Record<string, number> = {};
  const faces = new Set<string>();
  const empty: string[] = [];
  for (const path of sheets) {
    await page.goto(server.address + path, { waitUntil: 'networkidle' });
    const pdf = await page.pdf({ preferCSSPageSize: true });
    const texts = textOfPages(pdf);
    sides[path] = texts.length;
    if (texts.some((text) => text.length < 1000)) empty.push(path);
    for (const face of facesOf(pdf)) faces.add(face);
  }
  await close();
  return { sides, empty, faces: [...faces] };
}

/** Sizes below which nothing is printed, points: of tables and prose, of the drawing. */
const LEAST = { print: 5, drawing: 6.5 };
/** Width of A4 within the margins of the sheet, CSS px, and of the scrollbar's room beside it. */
const PAPER = Math.round(((210 - 2 * 8) / 25.4) * 96);
const GUTTER = 15;

test.each(sheets)(
  '%s is no wider than its paper, which would shrink it, and is legible',
  async (path) => {
    const { page, close } = await openTab(own.browser, {
      serviceWorkers: 'block',
      viewport: { width: PAPER + GUTTER, height: 1000 },
    });
    await page.emulateMedia({ media: 'print' });
    await page.goto(server.address + path, { waitUntil: 'networkidle' });
    const { wide, print, drawing } = await page.evaluate(() => {
      const main = document.querySelector('main')!;
      const seen = [...main.querySelectorAll<HTMLElement>('*')].filter(
        (one) => one.checkVisibility() && !one.closest('svg'),
      );
      const holds = (one: HTMLElement) =>
        [...one.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim());
      const size = (one: Element) => Number.parseFloat(getComputedStyle(one).fontSize) * 0.75;
      const drawn = [...main.querySelectorAll<SVGSVGElement>('svg.circuit')].filter((one) =>
        one.checkVisibility(),
      );
      return {
        wide: Math.max(...seen.map((one) => one.getBoundingClientRect().right)),
        // A reading in a table stands in an element of its own, and has no size around it.
        print: Math.min(...seen.filter((one) => holds(one) && size(one) > 0).map(size)),
        drawing: drawn.flatMap((svg) => {
          const scale = svg.getScreenCTM()!.a;
          return [...svg.querySelectorAll('text')].map((text) => size(text) * scale);
        }),
      };
    });
    expect(drawing.length).toBeGreaterThan(20);
    expect(wide).toBeLessThanOrEqual(PAPER + 1);
    expect(print).toBeGreaterThanOrEqual(LEAST.print);
    expect(Math.min(...drawing)).toBeGreaterThanOrEqual(LEAST.drawing);
    await close();
  },
);

test('with the fonts of one machine, all letters are of the served face', async () => {
  const { sides, empty, faces } = await printed(undefined);
  expect(sides).toEqual(expected);
  expect(empty).toEqual([]);
  expect(faces.filter((face) => !/^(?:AtkinsonHyperlegibleNext|Inter)-/.test(face))).toEqual([]);
  expect(faces).toContain('AtkinsonHyperlegibleNext-Regular');
});

test('with two cautions of a firm’s on each there are as many sides', async () => {
  const { sides, empty } = await printed(undefined, (page) =>
    page.addInitScript(() => {
      addEventListener('DOMContentLoaded', () => {
        for (const said of [
          'Two engineers, or a call to the technical desk, before any live test in an unlit or wet place.',
          'Nobody works alone on a system whose isolator cannot be locked off.',
        ]) {
          const line = document.createElement('li');
          line.append(said);
          document.querySelector('#cautions ul')?.append(line);
        }
      });
    }),
  );
  expect(sides).toEqual(expected);
  expect(empty).toEqual([]);
});

test('with the fonts of another there are as many sides', async () => {
  const { sides, empty, faces } = await printed(wide);
  expect(sides).toEqual(expected);
  expect(empty).toEqual([]);
  expect(faces).toContain('AtkinsonHyperlegibleNext-Regular');
});

test.each([
  ['one machine', () => undefined, /./],
  ['another', () => wide, /^Inter-/],
])(
  'and at most one more where the served face did not come, with the fonts of %s',
  async (_, fonts, its) => {
    const { sides, faces } = await printed(fonts(), (page) =>
      page.route('**/*.woff2', (route) => route.abort()),
    );
    expect(faces.filter((face) => /^Atkinson/.test(face) || !its.test(face))).toEqual([]);
    const more = Object.entries(sides).map(([path, count]) => count - expected[path]!);
    expect(Math.max(...more)).toBeLessThanOrEqual(1);
  },
);
