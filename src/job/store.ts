import type { KeptJob, UnreadJob } from './kept.ts';

export type { KeptJob, UnreadJob } from './kept.ts';

/** All that is kept, the job changed last first. */
export interface AllKept {
  readonly jobs: readonly KeptJob[];
  readonly unread: readonly UnreadJob[];
}

/**
 * device: in this browser, for good. In all others as long as the page is open; memory: this
 * browser keeps nothing; newer: what it keeps was laid out by a newer version of the page;
 * unopened: what it keeps could not be opened.
 */
export type WhereKept = 'device' | 'memory' | 'newer' | 'unopened';

/** Where jobs and their pictures are kept. */
export interface JobStore {
  readonly kept: WhereKept;
  /** One job that cannot be read never hides another. */
  readonly all: () => Promise<AllKept>;
  readonly get: (id: string) => Promise<KeptJob | UnreadJob | undefined>;
  /**
   * Keeps a job over the one it was made from.
   * @returns false, with nothing changed, where somebody else has saved it since, or what is
   * there cannot be read here.
   * @throws NoRoom when there is none, and none can be made.
   */
  readonly put: (kept: KeptJob) => Promise<boolean>;
  /** Forgets a job and its pictures. */
  readonly remove: (id: string, photos: readonly string[]) => Promise<void>;
  readonly picture: (id: string) => Promise<Blob | undefined>;
  /** @throws NoRoom as `put` does. */
  readonly putPicture: (id: string, picture: Blob) => Promise<void>;
  readonly removePicture: (id: string) => Promise<void>;
}

/** What a page is told of its store. */
export interface StoreHeard {
  /** An older page holds the database: it opens when that page is closed. */
  readonly waiting: () => void;
  /** A newer page needs the database, which is closed once this is done: the last time to save. */
  readonly leaving: () => Promise<void>;
  /** The browser took the database away; it is opened anew with what is done next. */
  readonly lost: () => void;
}

/** The browser as far as keeping goes. */
export interface Keeper {
  /** Gives up what can be had again. @returns whether there was anything */
  readonly makeRoom: () => Promise<boolean>;
  /** Asks the browser to keep what is here when it is short of room. */
  readonly persist: () => Promise<unknown>;
}

/**
 * Keeps jobs as long as the page is open.
 * @param kept why no longer
 * @param unread jobs beside them that stay as they are
 */
export function memoryStore(
  kept: WhereKept = 'memory',
  unread: readonly UnreadJob[] = [],
): JobStore {
  const jobs = new Map<string, KeptJob>();
  const pictures = new Map<string, Blob>();
  return {
    kept,
    all: async () => ({ jobs: [...jobs.values()].toSorted(newestFirst), unread }),
    get: async (id) => jobs.get(id) ?? unread.find((one) => one.id === id),
    async put(one) {
      if ((jobs.get(one.job.id)?.saved ?? 0) >= one.saved) return false;
      jobs.set(one.job.id, one);
      return true;
    },
    async remove(id, photos) {
      jobs.delete(id);
      for (const photo of photos) pictures.delete(photo);
    },
    picture: async (id) => pictures.get(id),
    async putPicture(id, picture) {
      pictures.set(id, picture);
    },
    async removePicture(id) {
      pictures.delete(id);
    },
  };
}

/** The job changed last first. */
export const newestFirst = (a: KeptJob, b: KeptJob): number =>
  a.job.changed < b.job.changed ? 1 : -1;
