/** Files of this machine, and results kept in them from build to build: the door to this room. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { dirname, join, sep } from 'node:path';

export {
  asTyped,
  homeFolder,
  isPackage,
  keptFolder,
  ownVersion,
  typedPath,
} from './home.ts';
export { type Kept, keptIn } from './kept.ts';

/** A file and its length in bytes. */
export interface Sized {
  /** Path from the folder listed, with forward slashes. */
  readonly path: string;
  readonly bytes: number;
}

/** What the steps of a build need of the file system; tests give their own. */
export interface FolderEffects {
  /**
   * All files under a folder, in any order.
   * @param without names at its top that are left out, unread
   */
  readonly list: (folder: string, without?: ReadonlySet<string>) => Promise<readonly Sized[]>;
  readonly read: (file: string) => Promise<Uint8Array<ArrayBuffer>>;
  /** Writes a file and the folders it needs. */
  readonly write: (file: string, body: Uint8Array | string) => Promise<void>;
  /** Removes a folder and all in it, if there is one. */
  readonly remove: (folder: string) => Promise<void>;
}

/**
 * The file system of this machine. A site is thousands of small files: they are listed and read at
 * once, as waiting for each costs more than reading it; written they may be side by side.
 */
export const folders: FolderEffects = {
  async list(folder, without = new Set()) {
    const from = join(folder, sep).length;
    const top = readdirSync(folder, { withFileTypes: true }).filter(
      ({ name }) => !without.has(name),
    );
    return top
      .flatMap((entry) =>
        entry.isDirectory()
          ? readdirSync(join(folder, entry.name), { recursive: true, withFileTypes: true })
          : [entry],
      )
      .filter((entry) => entry.isFile())
      .map(({ parentPath, name }) => {
        const file = join(parentPath, name);
        return { path: file.slice(from).split(sep).join('/'), bytes: statSync(file).size };
      });
  },
  read: async (file) => readFileSync(file),
  async write(file, body) {
    await mkdir(dirname(file), { recursive: true });
    await writeFile(file, body);
  },
  remove: (folder) => rm(folder, { recursive: true, force: true }),
};

/** Tells the SHA-256 of a file. */
export type HashOf = (file: string) => Promise<string>;

/** Reads each file that is asked for once, to tell its hash: for files that stay as they are. */
export function readHashes({ read }: Pick<FolderEffects, 'read'> = folders): HashOf {
  const known = new Map<string, Promise<string>>();
  const hashOf = async (file: string) =>
    createHash('sha256')
      .update(await read(file))
      .digest('hex');
  return (file) => {
    const hash = known.get(file) ?? hashOf(file);
    known.set(file, hash);
    return hash;
  };
}
