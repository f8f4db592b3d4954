import {
  type DBSchema,
  type IDBPDatabase,
  type IDBPTransaction,
  openDB,
  type StoreNames,
} from 'idb';
import { makeRoom } from '../offline/make-room.ts';
import {
  asRecord,
  type JobRecord,
  type KeptJob,
  readRecord,
  savedOf,
  type UnreadJob,
  unread,
} from './kept.ts';
import { isPlain } from './ladder.ts';
import {
  type AllKept,
  type JobStore,
  type Keeper,
  memoryStore,
  newestFirst,
  type StoreHeard,
} from './store.ts';

const DATABASE = 'proveline jobs';

/** The newest layout. What lies in it is read as data of which nothing is known. */
interface Layout extends DBSchema {
  jobs: { key: string; value: JobRecord };
  pictures: { key: string; value: Blob };
}
type Names = StoreNames<Layout>[];
type Upgrade = IDBPTransaction<unknown, string[], 'versionchange'>;

/**
 * From each layout of the database to the next; the first makes it. A step once landed never
 * changes. It moves records as they are: what is in a job, its own ladder reads.
 */
const STEPS: readonly ((database: IDBPDatabase, upgrade: Upgrade) => Promise<void>)[] = [
  // 1: a job lies under the name inside it, with its count of savings and the page's desk.
  async (database) => {
    database.createObjectStore('jobs', { keyPath: 'job.id' });
    database.createObjectStore('pictures');
  },
  // 2: its name and when it was saved stand outside, where no shape of a job can hide them.
  async (database, upgrade) => {
    const old = upgrade.objectStore('jobs');
    const [ids, records] = await Promise.all([old.getAllKeys(), old.getAll()]);
    database.deleteObjectStore('jobs');
    const jobs = database.createObjectStore('jobs', { keyPath: 'id' });
    for (const [i, record] of records.entries()) {
      const { desk, ...rest } = isPlain(record) ? record : { desk: null, job: record };
      const at = isPlain(rest.job) ? rest.job.changed : null;
      await jobs.put({ ...rest, id: ids[i], at, place: desk });
    }
  },
];
/** Version of the layout. */
const LAYOUT = STEPS.length;

/** No room for what is to be kept, in words for the reader. */
export class NoRoom extends Error {
  override name = 'NoRoom';
  constructor(cause: unknown) {
    super('This phone has no room left for it, so it is not kept.', { cause });
  }
}

const BROWSER: Keeper = {
  makeRoom,
  persist: async () => globalThis.navigator?.storage?.persist?.(),
};

const UNHEARD: StoreHeard = {
  waiting: () => undefined,
  leaving: async () => undefined,
  lost: () => undefined,
};

/** What a browser that keeps nothing says: storage switched off, or a private window. */
const REFUSALS = ['SecurityError', 'InvalidStateError', 'NotAllowedError', 'TypeError'];

/** Opens this browser's jobs. Where that cannot be done, keeps them while the page is open. */
export async function openJobStore(heard = UNHEARD, keeper = BROWSER): Promise<JobStore> {
  if (!globalThis.indexedDB) return memoryStore();
  try {
    return await openJobDatabase(heard, keeper).catch(async (failure) => {
      // Bringing jobs to a newer layout takes room for a while.
      if (nameOf(failure) !== 'AbortError' || !(await keeper.makeRoom())) throw failure;
      return openJobDatabase(heard, keeper);
    });
  } catch (failure) {
    const name = nameOf(failure);
    if (name === 'VersionError')
      return memoryStore('newer', await readNewerDatabase().catch(() => []));
    return memoryStore(REFUSALS.includes(name) ? 'memory' : 'unopened');
  }
}

const nameOf = (failure: unknown) => (failure instanceof Error ? failure.name : '');

/** Opens the database, brought to the newest layout. */
async function openJobDatabase(heard: StoreHeard, keeper: Keeper): Promise<JobStore> {
  let opened: Promise<IDBPDatabase<Layout>> | undefined;
  let closed = false;

  async function open(): Promise<IDBPDatabase<Layout>> {
    if (closed) throw new Error('the jobs are kept by a newer version of this page');
    opened ??= openDB<Layout>(DATABASE, LAYOUT, {
      async upgrade(database, from, _, transaction) {
        // Opening fails then and reports that it was given up.
        transaction.done.catch(() => undefined);
        try {
          for (const step of STEPS.slice(from))
            await step(database as unknown as IDBPDatabase, transaction as unknown as Upgrade);
        } catch {
          // All or nothing: what is there stays in its old layout, and opening fails.
          transaction.abort();
        }
      },
      blocked: heard.waiting,
      blocking: () => void leave(),
      terminated() {
        opened = undefined;
        heard.lost();
      },
    });
    try {
      return await opened;
    } catch (failure) {
      opened = undefined;
      throw failure;
    }
  }

  async function leave(): Promise<void> {
    await heard.leaving();
    closed = true;
    (await opened)?.close();
  }

  /** One transaction, done when it is written. */
  async function run<T, Mode extends 'readonly' | 'readwrite'>(
    stores: Names,
    mode: Mode,
    act: (transaction: IDBPTransaction<Layout, Names, Mode>) => Promise<T>,
  ): Promise<T> {
    const transaction = (await open()).transaction(stores, mode, { durability: 'strict' });
    const [acted, done] = await Promise.allSettled([act(transaction), transaction.done]);
    const failures = [done, acted].flatMap((one) =>
      one.status === 'rejected' ? [one.reason] : [],
    );
    if (acted.status === 'fulfilled' && failures.length === 0) return acted.value;
    // What was asked fails because the transaction does: its own reason is the cause.
    throw failures.find(isFull) ?? failures[0];
  }

  /** Writes; where there is no room, it is made. */
  async function written<T>(write: () => Promise<T>): Promise<T> {
    try {
      return await write();
    } catch (full) {
      if (!isFull(full)) throw full;
      if (!(await keeper.makeRoom().catch(() => false))) throw new NoRoom(full);
      return await write().catch((failure) => {
        throw isFull(failure) ? new NoRoom(failure) : failure;
      });
    }
  }

  type Records = readonly (readonly [id: string, record: unknown])[];
  const get = (id: string): Promise<unknown> =>
    run(['jobs'], 'readonly', (transaction) => transaction.objectStore('jobs').get(id));

  /** Every record under its name; undefined for one that the browser cannot give back. */
  async function allRecords(): Promise<Records> {
    const ids = await run(['jobs'], 'readonly', (t) => t.objectStore('jobs').getAllKeys());
    try {
      const all = await run(['jobs'], 'readonly', (t) => t.objectStore('jobs').getAll());
      return all.map((record) => [record.id, record] as const);
    } catch {
      // One of them cannot be had: each by itself.
      return Promise.all(
        ids.map(async (id) => [id, await get(id).catch(() => undefined)] as const),
      );
    }
  }

  await open();
  return {
    kept: 'device',
    all: async () => sorted((await allRecords()).map(([id, record]) => readRecord(record, id))),
    async get(id) {
      const record = await get(id);
      return record === undefined ? undefined : readRecord(record, id);
    },
    async put(kept) {
      let first = false;
      const done = await written(() =>
        run(['jobs'], 'readwrite', async (transaction) => {
          const jobs = transaction.objectStore('jobs');
          const known: unknown = await jobs.get(kept.job.id);
          if (savedOf(known) >= kept.saved) return false;
          if (known !== undefined && !('job' in readRecord(known, kept.job.id))) return false;
          await jobs.put(asRecord(kept));
          first = known === undefined && (await jobs.count()) === 1;
          return true;
        }),
      );
      if (first) void keeper.persist().catch(() => undefined);
      return done;
    },
    remove: (id, photos) =>
      run(['jobs', 'pictures'], 'readwrite', async (transaction) => {
        await transaction.objectStore('jobs').delete(id);
        for (const photo of photos) await transaction.objectStore('pictures').delete(photo);
      }),
    picture: (id) => run(['pictures'], 'readonly', (t) => t.objectStore('pictures').get(id)),
    putPicture: (id, picture) =>
      written(() =>
        run(['pictures'], 'readwrite', async (transaction) => {
          await transaction.objectStore('pictures').put(picture, id);
        }),
      ),
    removePicture: (id) =>
      run(['pictures'], 'readwrite', (t) => t.objectStore('pictures').delete(id)),
  };
}

const isFull = (failure: unknown): boolean => nameOf(failure) === 'QuotaExceededError';

function sorted(all: readonly (KeptJob | UnreadJob)[]): AllKept {
  const jobs = all.filter((one) => 'job' in one);
  const rest = all.filter((one) => 'raw' in one);
  return {
    jobs: jobs.toSorted(newestFirst),
    unread: rest.toSorted((a, b) => (b.at ?? '').localeCompare(a.at ?? '')),
  };
}

/** What a newer page has laid out, as far as it can be made out: to be taken away, not changed. */
async function readNewerDatabase(): Promise<UnreadJob[]> {
  const database = await openDB(DATABASE);
  try {
    const found: UnreadJob[] = [];
    for (const name of database.objectStoreNames) {
      if (name === 'pictures') continue;
      const [keys, records] = await Promise.all([database.getAllKeys(name), database.getAll(name)]);
      for (const [i, record] of records.entries())
        found.push({
          ...unread(record, String(keys[i]), 'newer', `its layout is ${database.version}.`),
          removable: false,
        });
    }
    return found;
  } finally {
    database.close();
  }
}
