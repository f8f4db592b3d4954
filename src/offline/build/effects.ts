import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { type FolderEffects, folders, type Kept, keptFolder, keptIn } from '../../folder/index.ts';

/** What writing packs needs of the machine; tests give their own. */
export interface Effects extends FolderEffects {
  /** Compressed packs of earlier builds, by the hash of what they hold. */
  readonly kept: Kept;
  /** The worker as one script, which finds the version in `SITE_VERSION`. */
  readonly bundleWorker: () => Promise<string>;
}

/** This machine's file system, and the worker of this room. */
export const machine: Effects = {
  ...folders,
  kept: keptIn(join(keptFolder(), 'packs')),
  async bundleWorker() {
    const { outputFiles } = await build({
      entryPoints: [fileURLToPath(new URL('../worker.ts', import.meta.url))],
      bundle: true,
      minify: true,
      format: 'iife',
      target: 'es2022',
      legalComments: 'none',
      write: false,
    });
    return outputFiles[0]!.text;
  },
};
