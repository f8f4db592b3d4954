import { afterAll, beforeAll } from 'vitest';
import { launch, serveFolder, type TestBrowser } from './harness.ts';

/** A browser and the served site. */
export interface Site {
  readonly chromium: TestBrowser;
  readonly server: Awaited<ReturnType<typeof serveFolder>>;
}

/** The built site in a browser of its own, from before the first test of a file to after its last. */
export function siteInBrowser(): Site {
  let site: Site;
  beforeAll(async () => {
    site = { chromium: await launch(), server: await serveFolder() };
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
