import { mkdir, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { Version } from '../manifest.ts';
import type { Sized } from './select.ts';

/** What writing packs needs of the machine; tests give their own. */
export interface Effects {
  /** All files under a folder, their paths with forward slashes, in any order. */
  readonly list: (folder: string) => Promise<readonly Sized[]>;
  readonly read: (file: string) => Promise<Uint8Array<ArrayBuffer>>;
  /** Writes a file and the folders it needs. */
  readonly write: (file: string, body: Uint8Array | string) => Promise<void>;
  readonly remove: (folder: string) => Promise<void>;
  /** The worker as one script that carries the version. */
  readonly bundleWorker: (version: Version) => Promise<string>;
}

/** This machine's file system, and the worker of this room. */
export const machine: Effects = {
  async list(folder) {
    const entries = await readdir(folder, { recursive: true, withFileTypes: true });
    const files = entries
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name));
    return Promise.all(
      files.map(async (file) => ({
        path: file.slice(join(folder, sep).length).split(sep).join('/'),
        bytes: (await stat(file)).size,
      })),
    );
  },
  read: async (file) => new Uint8Array(await readFile(file)),
  async write(file, body) {
    await mkdir(dirname(file), { recursive: true });
    await writeFile(file, body);
  },
  remove: (folder) => rm(folder, { recursive: true, force: true }),
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
