import { afterAll, beforeAll } from 'vitest';
import { launch, serveFolder, type TestBrowser } from './harness.ts';

/** A browser and the served site. */
export interface Site {
  readonly chromium: TestBrowser;
  readonly server: Awaited<ReturnType<typeof serveFolder>>;
}

/**
 * For tests that open one page at a time: it keeps the process that it began in, else each first
 * page of a phone takes a second one and leaves that of the empty page. Two pages open side by side
 * must not share one, as one would wait for the other.
 */
export const ONE_PAGE = ['--renderer-process-limit=1'];

/**
 * For tests that leave each page before its scripts have run so often that compiling them for speed
 * would pay: half the time that axe-core takes would go into it. What scripts do is the same; a
 * job, which works for seconds, takes far longer so.
 */
export const SHORT_VISITS = ['--js-flags=--no-turbofan,--no-maglev'];

/**
 * The built site in a browser of its own, from before the first test of a file to after its last.
 * @param flags that the browser is started with beside those it needs
 */
export function siteInBrowser(flags: readonly string[] = []): Site {
  let site: Site;
  beforeAll(async () => {
    site = { chromium: await launch(undefined, flags), server: await serveFolder() };
  });
  afterAll(async () => {
    await site.chromium.close();
    await site.server.stop();
  });
  return {
    get chromium() {
      return site.chromium;
    },
    get server() {
      return site.server;
    },
  };
}
