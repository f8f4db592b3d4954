import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument } from '@cantoo/pdf-lib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { FOOT } from '../../src/publish/pack.ts';
import { printFeet } from '../../src/publish/print-front.ts';
import { DIST } from '../support/site-folder.ts';
import { blocksOf } from '../words/page-text.ts';
import { builtPage, openTab, pagesOf, readManifest } from './harness.ts';
import { facesOf, textOfPages } from './pdf-text.ts';
import { siteInBrowser } from './site.ts';

/** Letters of a page that is more than a few lines. */
const FEW = 450;
const CHAPTERS = [
  'About',
  'Procedures',
  'Systems',
  'Complaints',
  'House standards',
  'Devices',
  'Words',
];

/** Letters and figures alone: lines break anywhere on paper, and fonts join f and i. */
const bare = (text: string) =>
  text
    .normalize('NFKC')
    .replace(/[\s\u00ad‐-]+/g, '')
    .toLowerCase();

const site = siteInBrowser();

let out: string;
let pdf: Buffer;
let pages: string[];
beforeAll(async () => {
  out = mkdtempSync(join(tmpdir(), 'pack-'));
  const { status, stderr } = spawnSync(
    process.execPath,
    ['src/cli/pack.ts', '--from', DIST, '--out', out],
    { encoding: 'utf8' },
  );
  expect(status, stderr).toBe(0);
  // Written anew without compressed objects, which are not read here.
  const book = await PDFDocument.load(readFileSync(join(out, 'reference.pdf')));
  pdf = Buffer.from(await book.save({ useObjectStreams: false }));
  pages = textOfPages(pdf);
});
afterAll(() => rmSync(out, { recursive: true }));

describe('the bound pack', () => {
  test('numbers every page, says whose and of which version it is, and leaves none but the cover with a few lines', () => {
    expect(pages.length).toBeGreaterThan(150);
    expect(
      pages.flatMap((text, i) => (i > 0 && text.length < FEW ? [[i + 1, text.slice(0, 60)]] : [])),
    ).toEqual([]);
    const all = pages.length;
    const { version, date } = readManifest();
    const day = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long' }).format(new Date(date));
    const wrong = pages.flatMap((text, i) =>
      bare(text).endsWith(bare(`Proveline${i + 1}/${all}Version ${version}, built ${day}`))
        ? []
        : [[i + 1, text.slice(-60)]],
    );
    expect(wrong).toEqual([]);
  });

  test('leaves no heads of a table at the foot of a page without a row', () => {
    const heads = /(?:costsatmost|standing|alsomarked|behaviour|otherwise|saved|holds)$/;
    const above = (text: string) => bare(text).replace(/proveline\d+\/\d+version.*$/, '');
    const found = pages.flatMap((text, i) =>
      heads.test(above(text)) ? [[i + 1, text.slice(-120)]] : [],
    );
    expect(found).toEqual([]);
    expect(pages.some((text) => bare(text).includes('costsatmost'))).toBe(true);
  });

  test('has its feet within the strip that is laid over a page', async () => {
    const { page, close } = await openTab(site.chromium.browser);
    const owner = { name: 'A firm', version: '1', date: '2026-02-03' };
    const feet = () => page.locator('.pack-leaf span').allTextContents();
    await printFeet({ page, address: site.server.address }, owner, 1);
    expect(await feet()).toEqual(['A firm', '1 / 1', 'Version 1, built 3 February 2026']);
    const released = { ...owner, release: '2026.01' };
    await printFeet({ page, address: site.server.address }, released, 2);
    expect((await feet())[2]).toBe('Release 2026.01, built 3 February 2026');
    await page.setViewportSize({ width: 794, height: 1123 });
    await page.emulateMedia({ media: 'print' });
    const above = await page.locator('.pack-leaf:first-child span').evaluateAll((parts) =>
      parts.map(
        (part) =>
          part.parentElement!.getBoundingClientRect().top +
          // A4 is 297 mm high; a CSS pixel is 1/96 inch, a point 1/72 (CSS Values 4, 6.2).
          (297 / 25.4) * 96 -
          part.getBoundingClientRect().top,
      ),
    );
    expect(above).toHaveLength(3);
    for (const pixels of above) expect(pixels * 0.75).toBeLessThan(FOOT.height);
    await close();
  });

  test('groups its contents by what they are, on two pages after the cover', () => {
    const contents = bare(pages.slice(1, 3).join(''));
    const places = CHAPTERS.map((title) => contents.indexOf(bare(title)));
    expect(places).not.toContain(-1);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(contents).toContain(bare('Zone'));
    expect(bare(pages[3]!)).toContain(bare('About Proveline'));
  });

  test('is set in the served face throughout', () => {
    const faces = facesOf(pdf);
    expect(faces).toContain('AtkinsonHyperlegibleNext-Regular');
    expect(faces.filter((face) => !/^(?:AtkinsonHyperlegibleNext|Inter)-/.test(face))).toEqual([]);
  });

  test.each(pagesOf(readManifest()).filter((path) => /^systems\/[a-z-]+\/$/.test(path)))(
    'tells how %s works, from its first word to its last',
    (path) => {
      const html = builtPage(`${path}sheet/`);
      const how = /<section id="how"[\s\S]*?<\/section>/.exec(html)?.[0] ?? '';
      const told = blocksOf(`<main>${how}</main>`).filter((text) => text.length > 60);
      expect(told.length).toBeGreaterThan(3);
      const printed = bare(pages.join(''));
      const letters = (text: string) => bare(text).replace(/[^a-z0-9]/g, '');
      const all = letters(printed);
      expect(
        [told[0]!, told.at(-1)!].filter((text) => !all.includes(letters(text).slice(0, 50))),
      ).toEqual([]);
    },
  );
});
