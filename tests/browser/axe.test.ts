import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { onePageOfEachKind, openTab } from './harness.ts';
import { siteInBrowser } from './site.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** The part of what axe-core finds that the tests report. */
interface Violations {
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly target: readonly unknown[] }[];
  }[];
}

const site = siteInBrowser();

describe.each(['light', 'dark'] as const)('axe, %s', (colorScheme) => {
  test.each(onePageOfEachKind())('/%s', async (path) => {
    const { page, close } = await openTab(site.chromium.browser, { colorScheme, bypassCSP: true });
    await page.goto(site.server.address + path);
    // What lies folded is read too.
    await page.evaluate(() => {
      for (const details of document.querySelectorAll('details')) details.open = true;
    });
    await page.evaluate(AXE);
    const { violations } = await page.evaluate<Violations>(
      'axe.run(document, { resultTypes: ["violations"] })',
    );
    const found = violations.map(({ id, nodes }) => [id, nodes.slice(0, 3).map((n) => n.target)]);
    expect(found).toEqual([]);
    await close();
  });
});
