import { closeSync, fstatSync, openSync, readdirSync, readSync } from 'node:fs';

/** What stands in a folder: a name, and whether it is a folder itself. */
export interface Listed {
  readonly name: string;
  readonly folder: boolean;
  /** Neither a file nor a folder: a link that leads elsewhere, a pipe, a device. */
  readonly other?: boolean;
}

/** No content file is larger than this, bytes. */
export const MOST_BYTES = 1024 * 1024;

/** The file system as this room uses it; tests give one of their own. */
export interface Effects {
  /** Names in a folder, in any order; undefined if there is no such folder. */
  readonly list: (folder: string) => readonly Listed[] | undefined;
  /** A file's bytes, the first of them where there are more than MOST_BYTES. @throws when it cannot be read. */
  readonly read: (file: string) => Uint8Array;
}

/** The file system of this machine. */
export const fileSystem: Effects = {
  list(folder) {
    try {
      return readdirSync(folder, { withFileTypes: true }).map((listed) => ({
        name: listed.name,
        folder: listed.isDirectory(),
        other: !listed.isDirectory() && !listed.isFile(),
      }));
    } catch {
      return undefined;
    }
  },
  read: firstBytes,
};

/** Reads one byte more than the most, so that a larger file is known without being read. */
function firstBytes(file: string): Uint8Array {
  const opened = openSync(file, 'r');
  try {
    const bytes = new Uint8Array(Math.min(fstatSync(opened).size, MOST_BYTES + 1));
    let length = 0;
    for (let read = -1; read !== 0 && length < bytes.length; length += read)
      read = readSync(opened, bytes, length, bytes.length - length, null);
    return bytes.subarray(0, length);
  } finally {
    closeSync(opened);
  }
}
