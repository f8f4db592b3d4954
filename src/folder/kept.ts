import { createHash, randomUUID } from 'node:crypto';
import {
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join, relative } from 'node:path';

/** Bytes of the hash that stands before what is kept. */
const HASH_BYTES = 32;

/** Milliseconds after which a result that nobody has asked for is dropped. */
const MONTH = 30 * 24 * 3600 * 1000;

/** Results kept from build to build, by names made of all that they depend on. */
export interface Kept {
  /** What is kept under a name; a file cut short or of another make is told of and passed over. */
  readonly read: (name: string) => Buffer | undefined;
  /** A folder that cannot be written is done without. */
  readonly write: (name: string, bytes: Uint8Array) => void;
  /** Removes what nobody has asked for in a month; where names are given, all but these. */
  readonly prune: (names?: ReadonlySet<string>) => void;
}

/**
 * Results kept in a folder, one a file: the hash of what follows, then what is kept.
 * @param tell how a file that cannot be used is told of
 */
export function keptIn(folder: string, tell: (line: string) => void = console.warn): Kept {
  const place = (name: string) => join(folder, name);
  return {
    read(name) {
      const file = place(name);
      const bytes = bytesOf(file);
      if (!bytes) return undefined;
      const kept = bytes.subarray(HASH_BYTES);
      if (!hashOf(kept).equals(bytes.subarray(0, HASH_BYTES))) {
        tell(`${relative('.', file)} is cut short or changed: worked out anew`);
        rmSync(file, { force: true });
        return undefined;
      }
      touch(file);
      return kept;
    },
    write(name, bytes) {
      // Written beside its place and moved there, so that no build reads half a file.
      const beside = place(`.${randomUUID()}`);
      try {
        mkdirSync(folder, { recursive: true });
        writeFileSync(beside, Buffer.concat([hashOf(bytes), bytes]));
        renameSync(beside, place(name));
      } catch {
        // What cannot be kept is worked out again next time.
      }
    },
    prune(names) {
      // After the clock was set back, files carry a later date, which harms nothing.
      const oldest = Date.now() - MONTH;
      const isOld = (file: string) =>
        (statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? Infinity) < oldest;
      for (const name of filesIn(folder))
        if (names ? !names.has(name) : isOld(place(name))) rmSync(place(name), { force: true });
    },
  };
}

const hashOf = (bytes: Uint8Array): Buffer => createHash('sha256').update(bytes).digest();

function bytesOf(file: string): Buffer | undefined {
  try {
    return readFileSync(file);
  } catch {
    return undefined;
  }
}

function touch(file: string): void {
  try {
    const now = new Date();
    utimesSync(file, now, now);
  } catch {
    // Read from a folder that is not ours to write.
  }
}

function filesIn(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}
