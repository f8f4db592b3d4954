import { mkdir, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join, sep } from 'node:path';

/** A file and its length in bytes. */
export interface Sized {
  /** Path from the folder listed, with forward slashes. */
  readonly path: string;
  readonly bytes: number;
}

/** What the steps of a build need of the file system; tests give their own. */
export interface FolderEffects {
  /** All files under a folder, in any order. */
  readonly list: (folder: string) => Promise<readonly Sized[]>;
  readonly read: (file: string) => Promise<Uint8Array<ArrayBuffer>>;
  /** Writes a file and the folders it needs. */
  readonly write: (file: string, body: Uint8Array | string) => Promise<void>;
  /** Removes a folder and all in it, if there is one. */
  readonly remove: (folder: string) => Promise<void>;
}

/** The file system of this machine. */
export const folders: FolderEffects = {
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
};
