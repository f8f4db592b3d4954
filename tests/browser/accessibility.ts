import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

/** The rules of axe-core as a script. */
export const AXE: string = readFileSync(
  createRequire(import.meta.url).resolve('axe-core/axe.min.js'),
  'utf8',
);

/** What axe-core finds against a page as it stands: rule, and the first places. */
export async function violations(page: Page): Promise<readonly (readonly [string, unknown[]])[]> {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(AXE);
  const found = await page.evaluate<{
    readonly violations: readonly { id: string; nodes: readonly { target: unknown[] }[] }[];
  }>('axe.run(document, { resultTypes: ["violations"], elementRef: false })');
  return found.violations.map(({ id, nodes }) => [id, nodes.slice(0, 3).map((n) => n.target)]);
}

/** Opens all that lies folded, so that it is read too. */
export const unfold = (page: Page): Promise<void> =>
  page.evaluate(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
  });
