import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { createRequire } from 'node:module';
import type { AddressInfo } from 'node:net';
import type { Page } from 'playwright-core';
import type { Serving } from '../../src/cli/serve.ts';
import { FOR_GOOD } from '../../src/publish/headers.ts';

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
/** Of what is found its place is enough: else each element looked at is written out. */
const SETTINGS = { noHtml: true };

/** Rule, and the first places where it is broken. */
type Violation = readonly [rule: string, places: unknown[]];

/** Told on the page itself: what axe-core says of all that is right is longer than the page. */
const RUN = `axe.configure(${JSON.stringify(SETTINGS)});
axe.run(document, ${JSON.stringify(OPTIONS)}).then(({ violations }) =>
  violations.map(({ id, nodes }) => [id, nodes.slice(0, 3).map(({ target }) => target)]))`;

/**
 * What axe-core finds against a page as it stands.
 * @param rules address that serves them, see {@link serveAxe}; else they are sent along
 */
export async function violations(page: Page, rules?: string): Promise<readonly Violation[]> {
  if (rules) await page.addScriptTag({ url: rules });
  else if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(AXE);
  return page.evaluate<readonly Violation[]>(RUN);
}

/**
 * Serves the rules of axe-core for a test of many pages, which must bypass their policy: a tab keeps
 * what it fetched and compiled, while to send it along takes longer than to load the page.
 */
export async function serveAxe(): Promise<Serving> {
  const headers = { 'content-type': 'text/javascript; charset=utf-8', 'cache-control': FOR_GOOD };
  const server = createServer((_, response) => response.writeHead(200, headers).end(AXE));
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    address: `http://localhost:${(server.address() as AddressInfo).port}/axe.js`,
    async stop() {
      server.close();
      server.closeAllConnections();
    },
  };
}

/** Opens all that lies folded, so that it is read too. */
export const unfold = (page: Page): Promise<void> =>
  page.evaluate(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
  });
