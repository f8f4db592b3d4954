import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument } from '@cantoo/pdf-lib';
import { describe, expect, test } from 'vitest';
import { IndexData } from '../../src/data/index.ts';
import { readQr } from '../support/qr-reader.ts';
import { DIST } from '../support/site-folder.ts';
import { openTab } from './harness.ts';
import { SHORT_VISITS, siteInBrowser } from './site.ts';

const { systems } = IndexData.parse(
  JSON.parse(readFileSync(join(DIST, 'data/index.json'), 'utf8')),
);

const site = siteInBrowser(SHORT_VISITS);

describe('cupboard labels', () => {
  test('each has a code that a decoder reads as the address of its system’s page', async () => {
    const { page, complaints, close } = await openTab(site.chromium.browser);
    await page.goto(`${site.server.address}labels/`);
    for (const { id } of systems) {
      const label = page.locator(`.cupboard-label[id="${id}"]`);
      await label.locator('.label-code path').waitFor({ state: 'attached' });
      expect(await readQr(await label.screenshot())).toEqual([
        `${site.server.address}systems/${id}/`,
      ]);
    }
    expect(complaints).toEqual({ console: [], foreign: [] });
    await close();
  });

  test('print one to a page of A6, 105 × 148 mm, with nothing cut off', async () => {
    const { page, close } = await openTab(site.chromium.browser, { serviceWorkers: 'block' });
    await page.goto(`${site.server.address}labels/`);
    await page.locator('.label-code path').last().waitFor({ state: 'attached' });
    const pdf = await PDFDocument.load(
      await page.pdf({ preferCSSPageSize: true, printBackground: true }),
    );
    const inMm = (points: number) => (points / 72) * 25.4;
    const sizes = pdf.getPages().map((p) => [p.getWidth(), p.getHeight()].map(inMm));
    expect(sizes).toHaveLength(systems.length);
    for (const [width, height] of sizes) {
      expect(width).toBeCloseTo(105, 0);
      expect(height).toBeCloseTo(148, 0);
    }
    await page.emulateMedia({ media: 'print' });
    const cut = await page
      .locator('.cupboard-label')
      .evaluateAll((labels) =>
        labels.filter((l) => l.scrollHeight > l.clientHeight).map((l) => l.id),
      );
    expect(cut).toEqual([]);
    await close();
  });

  test('keep to their page with a firm’s logo and number, a long name and a long address', async () => {
    const { page, close } = await openTab(site.chromium.browser, { serviceWorkers: 'block' });
    await page.goto(`${site.server.address}labels/`);
    await page.locator('.label-code path').last().waitFor({ state: 'attached' });
    await page.emulateMedia({ media: 'print' });
    const found = await page.locator('.cupboard-label').evaluateAll((labels) => {
      const logo =
        'data:image/svg+xml,<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 20"><rect width="60" height="20"/></svg>';
      return labels.map((label) => {
        const firm = document.createElement('p');
        firm.className = 'label-firm';
        firm.innerHTML = `<img class="firm-logo" alt="" src='${logo}'><b>A Firm of Heating Engineers</b><span>01632 960000</span>`;
        label.querySelector('header')!.prepend(firm);
        label.querySelector('h2 a')!.textContent =
          'Heat-only boiler with pump overrun, two-port valves and unvented cylinder';
        label.querySelector('.label-address')!.textContent =
          'https://reference.a-firm-of-engineers.example/reference/systems/heat-only-unvented/';
        const height = (selector: string) => label.querySelector(selector)!.getBoundingClientRect();
        const mm = 96 / 25.4;
        return {
          // The frame is 1.2 mm wide and stands 4 mm inside the label.
          below: (height('.label-blank').bottom - label.getBoundingClientRect().top) / mm - 142.3,
          code: height('.label-code').height / mm,
        };
      });
    });
    expect(found.length).toBe(systems.length);
    for (const { below, code } of found) {
      expect(below).toBeLessThanOrEqual(0);
      expect(code).toBeGreaterThanOrEqual(22.9);
    }
    for (const label of await page.locator('.cupboard-label').all())
      expect(await readQr(await label.screenshot())).toHaveLength(1);
    const pdf = await PDFDocument.load(
      await page.pdf({ preferCSSPageSize: true, printBackground: true }),
    );
    expect(pdf.getPageCount()).toBe(systems.length);
    await close();
  });
});

test('npm run pack binds the pages asked for, and says why labels are left out', async () => {
  const out = mkdtempSync(join(tmpdir(), 'pack-'));
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['src/cli/pack.ts', '--from', DIST, '--out', out, '--only', 'combi-two-wire,safe-isolation'],
    { encoding: 'utf8' },
  );
  expect(status, stderr).toBe(0);
  // Isolation is a procedure and a term of the glossary: both are called by that name.
  expect(stderr).toMatch(
    /^Binding 3 pages of Proveline, version \S+ of \d{4}-\d\d-\d\d, from \S+ into \S+\n/,
  );
  const pdf = await PDFDocument.load(readFileSync(join(out, 'reference.pdf')));
  expect(pdf.getPageCount()).toBeGreaterThan(3);
  expect(stdout).toMatch(/reference\.pdf: \d+\.\d MB, 3 pages of Proveline\n/);
  expect(stdout).toContain('labels.pdf left out');
  expect(existsSync(join(out, 'labels.pdf'))).toBe(false);
  rmSync(out, { recursive: true });
});
