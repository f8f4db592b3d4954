import type { Job } from './job.ts';

/** A job as it is kept: the job, and what stood half done on the page. */
export interface KeptJob {
  readonly job: Job;
  /** Counts up with every saving, so that a tab left open never undoes another's work. */
  readonly saved: number;
  /** The page's own: its view, and a reading half entered. */
  readonly desk: unknown;
}

/** Where jobs and their pictures are kept. */
export interface JobStore {
  /** device: in this browser, for good; memory: as long as the page is open. */
  readonly kept: 'device' | 'memory';
  /** All jobs, the one changed last first. */
  readonly all: () => Promise<KeptJob[]>;
  readonly get: (id: string) => Promise<KeptJob | undefined>;
  /**
   * Keeps a job over the one it was made from.
   * @returns false, with nothing changed, where somebody else has saved it since.
   */
  readonly put: (kept: KeptJob) => Promise<boolean>;
  /** Forgets a job and its pictures. */
  readonly remove: (job: Job) => Promise<void>;
  readonly picture: (id: string) => Promise<Blob | undefined>;
  readonly putPicture: (id: string, picture: Blob) => Promise<void>;
  readonly removePicture: (id: string) => Promise<void>;
}

const DATABASE = 'proveline jobs';
const JOBS = 'jobs';
const PICTURES = 'pictures';

/** Opens this browser's database of jobs; memory where the browser refuses it. */
export async function openJobStore(
  databases: IDBFactory | undefined = globalThis.indexedDB,
): Promise<JobStore> {
  try {
    if (!databases) return memoryStore();
    return databaseStore(await openDatabase(databases));
  } catch {
    // Private windows and blocked storage: the job is kept while the page is open.
    return memoryStore();
  }
}

const newestFirst = (a: KeptJob, b: KeptJob) => (a.job.changed < b.job.changed ? 1 : -1);

function openDatabase(databases: IDBFactory): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = databases.open(DATABASE, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore(JOBS, { keyPath: 'job.id' });
      request.result.createObjectStore(PICTURES);
    };
    request.onsuccess = () => {
      const database = request.result;
      // A newer page may need to change the database: it must not wait for this one.
      database.onversionchange = () => database.close();
      resolve(database);
    };
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error('the database of jobs is held by another page'));
  });
}

function databaseStore(database: IDBDatabase): JobStore {
  /** One transaction; what it asked for once it is all written. */
  function run<T>(
    stores: string[],
    mode: IDBTransactionMode,
    act: (transaction: IDBTransaction) => () => T,
  ): Promise<T> {
    return new Promise((resolve, reject) => {
      const transaction = database.transaction(stores, mode, { durability: 'strict' });
      const result = act(transaction);
      transaction.oncomplete = () => resolve(result());
      transaction.onabort = () => reject(transaction.error);
      transaction.onerror = () => reject(transaction.error);
    });
  }
  const read = <T>(store: string, ask: (from: IDBObjectStore) => IDBRequest<T>) =>
    run([store], 'readonly', (transaction) => {
      const request = ask(transaction.objectStore(store));
      return () => request.result;
    });
  return {
    kept: 'device',
    all: async () => (await read<KeptJob[]>(JOBS, (jobs) => jobs.getAll())).toSorted(newestFirst),
    get: (id) => read<KeptJob | undefined>(JOBS, (jobs) => jobs.get(id)),
    put: (kept) =>
      run([JOBS], 'readwrite', (transaction) => {
        const jobs = transaction.objectStore(JOBS);
        let done = false;
        const known: IDBRequest<KeptJob | undefined> = jobs.get(kept.job.id);
        known.onsuccess = () => {
          if ((known.result?.saved ?? 0) >= kept.saved) return;
          done = true;
          jobs.put(kept);
        };
        return () => done;
      }),
    remove: (job) =>
      run([JOBS, PICTURES], 'readwrite', (transaction) => {
        transaction.objectStore(JOBS).delete(job.id);
        for (const { id } of job.photos) transaction.objectStore(PICTURES).delete(id);
        return () => undefined;
      }),
    picture: (id) => read<Blob | undefined>(PICTURES, (pictures) => pictures.get(id)),
    putPicture: (id, picture) =>
      run([PICTURES], 'readwrite', (transaction) => {
        transaction.objectStore(PICTURES).put(picture, id);
        return () => undefined;
      }),
    removePicture: (id) =>
      run([PICTURES], 'readwrite', (transaction) => {
        transaction.objectStore(PICTURES).delete(id);
        return () => undefined;
      }),
  };
}

/** Keeps jobs as long as the page is open. */
export function memoryStore(): JobStore {
  const jobs = new Map<string, KeptJob>();
  const pictures = new Map<string, Blob>();
  return {
    kept: 'memory',
    all: async () => [...jobs.values()].toSorted(newestFirst),
    get: async (id) => jobs.get(id),
    async put(kept) {
      if ((jobs.get(kept.job.id)?.saved ?? 0) >= kept.saved) return false;
      jobs.set(kept.job.id, kept);
      return true;
    },
    async remove(job) {
      jobs.delete(job.id);
      for (const { id } of job.photos) pictures.delete(id);
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
