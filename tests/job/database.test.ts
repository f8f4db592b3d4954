import 'fake-indexeddb/auto';
import { forceCloseDatabase, IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { openJobStore } from '../../src/job/database.ts';
import { changeJob, newJob } from '../../src/job/job.ts';
import { JOB_VERSION } from '../../src/job/job-schema.ts';
import type { KeptJob } from '../../src/job/kept.ts';
import type { Plain } from '../../src/job/ladder.ts';
import { AT_START } from '../../src/job/place.ts';
import type { JobStore, Keeper, StoreHeard } from '../../src/job/store.ts';
import { SHAPES } from './shapes.ts';

const NAME = 'proveline jobs';
/** The newest layout, as a browser has it on its disk. */
const LAYOUT = 2;

const SYSTEM = { id: 'combi-two-wire', title: 'Combi', wiring: 1, mode: 'heating' };
const begun = (name = 'Hall'): KeptJob => ({
  job: newJob(SYSTEM, { name, place: '' }),
  saved: 1,
  place: AT_START,
});

/** A browser that never has room to spare, and notes what it is asked for. */
function keeper(room = false): Keeper & { readonly asked: string[] } {
  const asked: string[] = [];
  return {
    asked,
    makeRoom: async () => {
      asked.push('room');
      return room;
    },
    persist: async () => asked.push('persist'),
  };
}
const heard = (change: Partial<StoreHeard> = {}): StoreHeard => ({
  waiting: () => undefined,
  leaving: async () => undefined,
  lost: () => undefined,
  ...change,
});
const opened = (change: Partial<StoreHeard> = {}, by: Keeper = keeper()): Promise<JobStore> =>
  openJobStore(heard(change), by);

const promised = <T>(request: IDBRequest<T>) =>
  new Promise<T>((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

/** Opens the database by hand, as a page of another time did. */
function byHand(
  version: number | undefined,
  lay: (database: IDBDatabase) => void = () => undefined,
): Promise<IDBDatabase> {
  const request = indexedDB.open(NAME, version);
  request.onupgradeneeded = () => lay(request.result);
  return promised(request);
}
/** How pages laid the database out, by the number of the layout. */
const LAY: Readonly<Record<number, (database: IDBDatabase) => void>> = {
  1: (database) => {
    database.createObjectStore('jobs', { keyPath: 'job.id' });
    database.createObjectStore('pictures');
  },
  2: (database) => {
    database.createObjectStore('jobs', { keyPath: 'id' });
    database.createObjectStore('pictures');
  },
};

/** Writes records as they are, in a layout, and lets go of the database. */
async function written(
  layout: number,
  records: readonly unknown[],
  pictures: Readonly<Record<string, Blob>> = {},
): Promise<void> {
  const database = await byHand(layout, LAY[layout]);
  const transaction = database.transaction(['jobs', 'pictures'], 'readwrite');
  for (const record of records) transaction.objectStore('jobs').put(record);
  for (const [id, picture] of Object.entries(pictures))
    transaction.objectStore('pictures').put(picture, id);
  await new Promise((resolve) => {
    transaction.oncomplete = resolve;
  });
  database.close();
}
/** Every record as it lies there, and the layout it lies in. */
async function lying(): Promise<{ layout: number; records: unknown[] }> {
  const database = await byHand(undefined);
  const records = await promised(database.transaction('jobs').objectStore('jobs').getAll());
  database.close();
  return { layout: database.version, records };
}

const quota = () => new DOMException('no room', 'QuotaExceededError');
/** Every writing fails for want of room, as many times as said. */
function full(times: number): void {
  const put = vi.spyOn(IDBObjectStore.prototype, 'put');
  for (let i = 0; i < times; i++)
    put.mockImplementationOnce(() => {
      throw quota();
    });
}

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});
afterEach(() => {
  vi.restoreAllMocks();
});

describe('the layout of the database', () => {
  test('is as it landed: another takes the next number and a step', async () => {
    await (await opened()).put(begun());
    const database = await byHand(undefined);
    const transaction = database.transaction(['jobs', 'pictures']);
    const stores = [...database.objectStoreNames].map((name) => {
      const { keyPath, autoIncrement, indexNames } = transaction.objectStore(name);
      return { name, keyPath, autoIncrement, indexes: [...indexNames] };
    });
    expect([database.version, stores]).toEqual([
      LAYOUT,
      [
        { name: 'jobs', keyPath: 'id', autoIncrement: false, indexes: [] },
        { name: 'pictures', keyPath: null, autoIncrement: false, indexes: [] },
      ],
    ]);
    const { records } = await lying();
    expect(Object.keys(records[0] as Plain).toSorted()).toEqual([
      'at',
      'id',
      'job',
      'place',
      'saved',
    ]);
    database.close();
  });

  test('is brought up from the first one with every job, draft and picture', async () => {
    const old = SHAPES.filter(({ version }) => version === 1);
    const picture = new Blob(['jpeg']);
    await written(
      1,
      old.map(({ record }) => record),
      { p: picture },
    );
    const store = await opened();
    const { jobs, unread } = await store.all();
    expect([store.kept, unread]).toEqual(['device', []]);
    expect(jobs.map(({ job }) => job.id).toSorted()).toEqual(
      old.map(({ record }) => record.job.id).toSorted(),
    );
    for (const { record } of old) {
      const kept = await store.get(record.job.id);
      expect(kept).toMatchObject({ saved: 17, place: record.desk });
      expect(kept).toMatchObject({ job: { entries: record.job.entries, notes: record.job.notes } });
    }
    expect(await (await store.picture('p'))?.text()).toBe('jpeg');
    expect((await lying()).layout).toBe(LAYOUT);
  });

  test('is brought up with what nobody can read any more', async () => {
    const damaged = { job: { id: 'a', name: 'Mill Lane', photos: 7 }, saved: 'often', more: 1 };
    const good = SHAPES.find(({ name }) => name === 'v1-first')!.record;
    await written(1, [damaged, good]);
    const { jobs, unread } = await (await opened()).all();
    expect(jobs.map(({ job }) => job.id)).toEqual([good.job.id]);
    expect(unread).toMatchObject([{ id: 'a', title: 'Mill Lane', raw: damaged.job, at: null }]);
    expect((await lying()).records).toContainEqual({ ...damaged, id: 'a' });
  });

  test('stays as it was where it cannot be brought up, and nothing is lost', async () => {
    const { record } = SHAPES.find(({ name }) => name === 'v1-first')!;
    await written(1, [record]);
    vi.spyOn(IDBDatabase.prototype, 'deleteObjectStore').mockImplementation(() => {
      throw quota();
    });
    const by = keeper(true);
    expect((await opened({}, by)).kept).toBe('unopened');
    expect(by.asked).toEqual(['room']);
    expect(await lying()).toEqual({ layout: 1, records: [record] });
    vi.restoreAllMocks();
    expect((await (await opened()).all()).jobs).toHaveLength(1);
  });

  test('takes room for a while: pages saved beside it give way', async () => {
    await written(1, [SHAPES[0]!.record]);
    full(1);
    const by = keeper(true);
    const store = await opened({}, by);
    expect([store.kept, by.asked]).toEqual(['device', ['room']]);
    expect((await store.all()).jobs).toHaveLength(1);
  });
});

describe('a job that cannot be read', () => {
  const newest = SHAPES.find(({ version }) => version === LAYOUT)!.record;
  const damaged = { ...newest, id: 'damaged', job: { ...newest.job, entries: 'gone' } as Plain };
  const newer = {
    ...newest,
    id: 'newer',
    job: { ...newest.job, version: JOB_VERSION + 1, id: 'newer' },
  };

  test('stands beside those that can, and is not written over', async () => {
    await written(2, [damaged, newest, newer]);
    const store = await opened();
    const { jobs, unread } = await store.all();
    expect(jobs.map(({ job }) => job.id)).toEqual([newest.job.id]);
    expect(unread.map(({ id, problem }) => [id, problem])).toEqual([
      ['damaged', 'damaged'],
      ['newer', 'newer'],
    ]);
    const over = begun();
    expect(await store.put({ ...over, saved: 999, job: { ...over.job, id: 'damaged' } })).toBe(
      false,
    );
    expect(await store.put({ ...over, saved: 999, job: { ...over.job, id: 'newer' } })).toBe(false);
    expect((await lying()).records).toEqual([damaged, newer, newest]);
  });

  test('goes with its pictures when the reader deletes it', async () => {
    const [photo] = damaged.job.photos as { id: string }[];
    await written(2, [damaged], { [photo!.id]: new Blob(['x']) });
    const store = await opened();
    const [one] = (await store.all()).unread;
    expect(one!.photos).toEqual([photo!.id]);
    await store.remove(one!.id, one!.photos);
    expect(await store.all()).toEqual({ jobs: [], unread: [] });
    expect(await store.picture(photo!.id)).toBeUndefined();
  });

  test('because the browser itself no longer gives it back is listed, and hides no other', async () => {
    await written(2, [newest, { ...newest, id: 'lost' }]);
    const store = await opened();
    vi.spyOn(IDBObjectStore.prototype, 'getAll').mockImplementation(() => {
      throw new DOMException('data lost due to missing file', 'DataError');
    });
    const get = IDBObjectStore.prototype.get;
    vi.spyOn(IDBObjectStore.prototype, 'get').mockImplementation(function (
      this: IDBObjectStore,
      key,
    ) {
      if (key === 'lost') throw new DOMException('data lost', 'DataError');
      return get.call(this, key);
    });
    const { jobs, unread } = await store.all();
    expect(jobs.map(({ job }) => job.id)).toEqual([newest.job.id]);
    expect(unread).toMatchObject([
      { id: 'lost', problem: 'damaged', why: 'this browser can no longer give it back.' },
    ]);
  });
});

describe('a database of a newer version', () => {
  const record = { name: 'x', job: { version: 9, name: 'Mill Lane', changed: 'soon' } };
  beforeEach(async () => {
    const database = await byHand(7, (made) => {
      made.createObjectStore('ledger', { keyPath: 'name' });
      made.createObjectStore('pictures');
    });
    const transaction = database.transaction('ledger', 'readwrite');
    transaction.objectStore('ledger').put(record);
    await new Promise((resolve) => {
      transaction.oncomplete = resolve;
    });
    database.close();
  });

  test('is said, listed with what lies there, and left as it is', async () => {
    const store = await opened();
    expect(store.kept).toBe('newer');
    const { jobs, unread } = await store.all();
    expect(jobs).toEqual([]);
    expect(unread).toMatchObject([
      { id: 'x', title: 'Mill Lane', problem: 'newer', raw: record.job, removable: false },
    ]);
    const kept = begun();
    expect(await store.put(kept)).toBe(true);
    expect((await store.all()).jobs).toEqual([kept]);
    const database = await byHand(undefined);
    expect([database.version, [...database.objectStoreNames]]).toEqual([7, ['ledger', 'pictures']]);
    expect(await promised(database.transaction('ledger').objectStore('ledger').getAll())).toEqual([
      record,
    ]);
    database.close();
  });
});

describe('where the phone is full', () => {
  test('saved pages give way, and the job is kept', async () => {
    const by = keeper(true);
    const store = await opened({}, by);
    full(1);
    const kept = begun();
    expect(await store.put(kept)).toBe(true);
    expect(by.asked).toEqual(['room', 'persist']);
    expect((await store.all()).jobs).toEqual([kept]);
  });

  test.each([
    ['nothing can give way', false, 1],
    ['it is full still', true, 2],
  ])('and %s, it says so, and what was kept before stays', async (_, room, times) => {
    const store = await opened({}, keeper(room));
    const kept = begun();
    await store.put(kept);
    full(times);
    const more = { ...kept, saved: 2, job: changeJob(kept.job, { notes: 'more' }) };
    await expect(store.put(more)).rejects.toThrow(
      'This phone has no room left for it, so it is not kept.',
    );
    expect((await store.all()).jobs).toEqual([kept]);
    expect(await store.put(more)).toBe(true);
  });

  test('a picture has the same claim', async () => {
    const store = await opened({}, keeper(true));
    full(1);
    await store.putPicture('p', new Blob(['x']));
    expect(await (await store.picture('p'))?.text()).toBe('x');
    full(2);
    await expect(store.putPicture('q', new Blob(['x']))).rejects.toThrow('has no room left');
  });

  test('any other failure is said as it is, and nothing gives way', async () => {
    const by = keeper(true);
    const store = await opened({}, by);
    await expect(
      store.put({ ...begun(), place: (() => undefined) as never }),
    ).rejects.toHaveProperty('name', 'DataCloneError');
    expect(by.asked).toEqual([]);
  });
});

test('the browser is asked to keep what is here with the first job, and not again', async () => {
  const by = keeper();
  const store = await opened({}, by);
  const kept = begun();
  expect(by.asked).toEqual([]);
  await store.put(kept);
  await store.put({ ...kept, saved: 2 });
  await store.put(begun('Second'));
  expect(by.asked).toEqual(['persist']);
});

test('a saving older than what is kept changes nothing', async () => {
  const store = await opened();
  const kept = begun();
  await store.put({ ...kept, saved: 5 });
  expect(await store.put({ ...kept, saved: 5 })).toBe(false);
  expect(await store.put({ ...kept, saved: 4 })).toBe(false);
  expect(await store.get(kept.job.id)).toMatchObject({ saved: 5 });
  expect(await store.put({ ...kept, saved: 6 })).toBe(true);
});

describe('two tabs of different versions', () => {
  test('the older one saves, closes, and writes nothing more', async () => {
    const kept = begun();
    const more = { ...kept, saved: 2, job: changeJob(kept.job, { notes: 'last words' }) };
    const store: JobStore = await opened({
      leaving: async () => {
        await store.put(more);
      },
    });
    await store.put(kept);
    const newer = await byHand(LAYOUT + 1);
    expect(
      await promised(newer.transaction('jobs').objectStore('jobs').get(kept.job.id)),
    ).toMatchObject({ saved: 2, job: { notes: 'last words' } });
    await expect(store.put({ ...more, saved: 3 })).rejects.toThrow(
      'the jobs are kept by a newer version of this page',
    );
    newer.close();
  });

  test('the newer one waits for an older one that does not close, says so, and then opens', async () => {
    await written(1, [SHAPES[0]!.record]);
    const older = await byHand(1);
    const waiting = vi.fn();
    const opening = opened({ waiting });
    await vi.waitFor(() => expect(waiting).toHaveBeenCalledOnce());
    older.close();
    const store = await opening;
    expect(store.kept).toBe('device');
    expect((await store.all()).jobs).toHaveLength(1);
  });
});

test('a database that the browser took away is opened anew, and the page hears of it', async () => {
  const lost = vi.fn();
  const raw: IDBDatabase[] = [];
  const open = IDBFactory.prototype.open;
  vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(function (this: IDBFactory, ...asked) {
    const request = open.apply(this, asked);
    request.addEventListener('success', () => raw.push(request.result as never));
    return request;
  });
  const store = await opened({ lost });
  const kept = begun();
  await store.put(kept);
  forceCloseDatabase(raw[0] as never);
  await vi.waitFor(() => expect(lost).toHaveBeenCalledOnce());
  expect(await store.put({ ...kept, saved: 2 })).toBe(true);
  expect(await store.get(kept.job.id)).toMatchObject({ saved: 2 });
});

describe('a browser that keeps nothing', () => {
  test('has none, and jobs last as long as the page', async () => {
    vi.stubGlobal('indexedDB', undefined);
    expect((await opened()).kept).toBe('memory');
    vi.unstubAllGlobals();
  });

  test.each([
    ['SecurityError', 'memory'],
    ['UnknownError', 'unopened'],
  ])('says %s: %s', async (name, kept) => {
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
      throw new DOMException('no', name);
    });
    const store = await opened();
    expect(store.kept).toBe(kept);
    await store.put(begun());
    expect((await store.all()).jobs).toHaveLength(1);
  });
});
