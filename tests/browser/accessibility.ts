import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

/** The rules of axe-core as a script. */
export const AXE: string = readFileSync(
  createRequire(import.meta.url).resolve('axe-core/axe.min.js'),
  'utf8',
);

/**
 * Every rule that runs by itself. Style sheets are read beforehand for one alone that does not,
 * as it is an experiment of axe-core's; media are, for the rule about sound that starts by itself.
 */
const OPTIONS = {
  resultTypes: ['violations'],
  elementRef: false,
  preload: { assets: ['media'] },
};

/** What axe-core finds against a page as it stands: rule, and the first places. */
export async function violations(page: Page): Promise<readonly (readonly [string, unknown[]])[]> {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(AXE);
  const found = await page.evaluate<{
    readonly violations: readonly { id: string; nodes: readonly { target: unknown[] }[] }[];
  }>(`axe.run(document, ${JSON.stringify(OPTIONS)})`);
  return found.violations.map(({ id, nodes }) => [id, nodes.slice(0, 3).map((n) => n.target)]);
}

/** Opens all that lies folded, so that it is read too. */
export const unfold = (page: Page): Promise<void> =>
  page.evaluate(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
  });
