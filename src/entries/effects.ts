import { readdirSync, readFileSync } from 'node:fs';

/** What stands in a folder: a name, and whether it is a folder itself. */
export interface Listed {
  readonly name: string;
  readonly folder: boolean;
}

/** The file system as this room uses it; tests give one of their own. */
export interface Effects {
  /** Names in a folder, in any order; undefined if there is no such folder. */
  readonly list: (folder: string) => readonly Listed[] | undefined;
  /** A file's bytes. @throws when the file cannot be read. */
  readonly read: (file: string) => Uint8Array;
}

/** The file system of this machine. */
export const fileSystem: Effects = {
  list(folder) {
    try {
      return readdirSync(folder, { withFileTypes: true }).map((listed) => ({
        name: listed.name,
        folder: listed.isDirectory(),
      }));
    } catch {
      return undefined;
    }
  },
  read: (file) => readFileSync(file),
};
