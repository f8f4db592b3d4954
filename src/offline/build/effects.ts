import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { type FolderEffects, folders } from '../../folder/index.ts';
import type { Version } from '../manifest.ts';

/** What writing packs needs of the machine; tests give their own. */
export interface Effects extends FolderEffects {
  /** The worker as one script that carries the version. */
  readonly bundleWorker: (version: Version) => Promise<string>;
}

/** This machine's file system, and the worker of this room. */
export const machine: Effects = {
  ...folders,
  async bundleWorker(version) {
    const { outputFiles } = await build({
      entryPoints: [fileURLToPath(new URL('../worker.ts', import.meta.url))],
      bundle: true,
      minify: true,
      format: 'iife',
      target: 'es2022',
      legalComments: 'none',
      write: false,
      define: { SITE_VERSION: JSON.stringify(version) },
    });
    return outputFiles[0]!.text;
  },
};
