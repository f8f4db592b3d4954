import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { writeOfflinePacks } from '../../src/offline/build/index.ts';
import { systemOf } from '../../src/offline/manifest.ts';
import { DIST } from '../support/site-folder.ts';
import { readManifest } from './harness.ts';

/** Systems whose pages a small site has: one is left out of a phone and the other kept. */
const SYSTEMS: readonly string[] = ['combi-two-wire', 'heat-only-two-port'];

/** The built site with the pages of two systems: whole in every other kind of page, and a third of it. */
export interface SmallSite {
  /** A copy of it in a folder of its own, which a test may publish again and removes. */
  readonly copy: () => Promise<string>;
  readonly remove: () => Promise<void>;
}

/** Makes the site that each test of a file copies: what is kept, and how, hangs on no count of pages. */
export async function makeSmallSite(): Promise<SmallSite> {
  const folder = await mkdtemp(join(tmpdir(), 'small-site-'));
  await cp(DIST, folder, {
    recursive: true,
    filter: (file) => isIn(relative(DIST, file)),
  });
  const { version, date } = readManifest();
  await writeOfflinePacks(folder, { version, date });
  return {
    async copy() {
      const own = await mkdtemp(join(tmpdir(), 'site-'));
      await cp(folder, own, { recursive: true });
      return own;
    },
    remove: () => rm(folder, { recursive: true }),
  };
}

function isIn(path: string): boolean {
  const system = /^systems\/([a-z-]+)(?:\/|$)/.exec(path)?.[1] ?? systemOf(path);
  return system === undefined || SYSTEMS.includes(system);
}
