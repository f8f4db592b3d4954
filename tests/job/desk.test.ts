import { describe, expect, test } from 'vitest';
import type { EngineClient, Heard } from '../../src/job/client.ts';
import { Desk, type DeskEffects } from '../../src/job/desk.ts';
import { newDraft } from '../../src/job/draft.ts';
import type { Request } from '../../src/job/engine.ts';
import {
  addEntry,
  addPhoto,
  addRepair,
  changeJob,
  changeRepair,
  type Job,
  leaveOut,
  newJob,
} from '../../src/job/job.ts';
import { MOST_ENTRIES, MOST_REPAIRS } from '../../src/job/job-schema.ts';
import { unread } from '../../src/job/kept.ts';
import { type JobStore, type KeptJob, memoryStore, type StoreHeard } from '../../src/job/store.ts';
import { SHAPES } from './shapes.ts';
import { systemForJob } from './systems.ts';

const { engine } = systemForJob('combi-two-wire');
const SYSTEM = { id: 'combi-two-wire', title: 'Combi', wiring: 1, mode: 'heating' };
const look = (answer: 'seen' | 'not seen') =>
  ({ kind: 'look', mode: 'heating', outcome: 'E1.burner', answer }) as const;

/** The engine at once, in place of its worker. */
function atOnce(heard: Heard): EngineClient {
  return {
    find(wanted: Omit<Request, 'pairs'>) {
      heard.found(engine.find({ ...wanted, pairs: false }));
      heard.next(engine.next({ ...wanted, pairs: true }) ?? null);
    },
    due: (asked) =>
      heard.due(
        asked,
        asked.map((one) => engine.due(one)),
      ),
    path: (key) => heard.path(key, null),
    shown: (before, said) => heard.shown(said, engine.shownIn({ ...before, pairs: false }, said)),
    draw: () => heard.drawn('<svg/>'),
    close: () => undefined,
  };
}

const effectsOf = (
  store: JobStore,
  engineOf: typeof atOnce,
  tell: (heard: StoreHeard) => void = () => undefined,
): DeskEffects => ({
  openStore: async (heard) => {
    tell(heard);
    return store;
  },
  systemNow: (id) => id,
  startEngine: (_, heard) => {
    const client = engineOf(heard);
    queueMicrotask(() => heard.opened(engine.sheet));
    return client;
  },
  remember: () => undefined,
  afterPaint: (call) => setTimeout(call),
});

async function deskOn(
  store: JobStore,
  engineOf = atOnce,
  tell?: (heard: StoreHeard) => void,
): Promise<Desk> {
  const desk = new Desk(effectsOf(store, engineOf, tell), () => undefined);
  await desk.start();
  return desk;
}

/** A kept job that can be read. */
async function keptIn(store: JobStore, id: string): Promise<KeptJob> {
  const kept = await store.get(id);
  if (!kept || !('job' in kept)) throw new Error(`${id} is not kept, or cannot be read`);
  return kept;
}

const begun = async (store: JobStore, engineOf = atOnce) => {
  const desk = await deskOn(store, engineOf);
  const job = await desk.begin(SYSTEM, { name: 'Hall', place: '' });
  return { desk, job };
};

describe('the desk', () => {
  test('saves every act, and another desk takes up where the first was left', async () => {
    const store = memoryStore();
    const { desk, job } = await begun(store);
    desk.act((now) => addEntry(now, look('not seen')));
    desk.turn({ view: 'readings', draft: { ...newDraft(job), from: 'E1.L', typed: '23' } });
    await desk.settled();

    const other = await deskOn(store);
    expect(other.state.jobs.map(({ name }) => name)).toEqual(['Hall']);
    expect(await other.open(job.id)).toBe(true);
    expect(other.state.job).toEqual(desk.state.job);
    expect(other.state.place).toEqual(desk.state.place);
    expect(other.state.place.draft).toMatchObject({ from: 'E1.L', typed: '23' });
  });

  test('opens a job begun under a former name of its system, and keeps it under the name of now', async () => {
    const store = memoryStore();
    const { desk: earlier, job } = await begun(store);
    await earlier.close();
    const kept = await keptIn(store, job.id);
    await store.put({ ...kept, saved: 9, job: { ...kept.job, system: 'of-old' } });
    const asked: string[] = [];
    const effects = effectsOf(store, atOnce);
    const desk = new Desk(
      {
        ...effects,
        systemNow: (id) => (id === 'of-old' ? SYSTEM.id : id),
        startEngine(subject, heard) {
          if (subject.kind === 'entry') asked.push(subject.id);
          return effects.startEngine(subject, heard);
        },
      },
      () => undefined,
    );
    await desk.start();
    expect(await desk.open(job.id)).toBe(true);
    expect(asked).toEqual([SYSTEM.id]);
    expect((await keptIn(store, job.id)).job.system).toBe('of-old');
    desk.act((now) => addEntry(now, look('seen')));
    await desk.settled();
    expect((await keptIn(store, job.id)).job).toMatchObject({ system: SYSTEM.id, id: job.id });
  });

  test('opens a job whose engine does not even start, and says why nothing is ranked', async () => {
    const store = memoryStore();
    const { desk: earlier, job } = await begun(store);
    await earlier.close();
    const broken = {
      ...effectsOf(store, atOnce),
      startEngine: () => {
        throw new Error('no thread is left');
      },
    };
    const desk = new Desk(broken, () => undefined);
    await desk.start();
    expect(await desk.open(job.id)).toBe(true);
    expect(desk.state).toMatchObject({ job: { id: job.id }, broken: 'no thread is left' });
    desk.act((now) => addEntry(now, look('seen')));
    await desk.settled();
    expect((await keptIn(store, job.id)).job.entries).toHaveLength(1);
  });

  test('saves after the paint, several acts as one, and at once when the page goes', async () => {
    const store = memoryStore();
    const { desk, job } = await begun(store);
    const saved = async () => (await keptIn(store, job.id)).job.entries.length;
    desk.act((now) => addEntry(now, look('not seen')));
    desk.act((now) => addEntry(now, look('seen')));
    expect(await saved()).toBe(0);
    await new Promise((resume) => setTimeout(resume, 5));
    expect(await saved()).toBe(2);
    const times = (await keptIn(store, job.id)).saved;
    desk.act((now) => addEntry(now, look('not seen')));
    desk.flush();
    await Promise.resolve();
    expect(await saved()).toBe(3);
    expect((await keptIn(store, job.id)).saved).toBe(times + 1);
  });

  test('keeps the last proposal on show, marked, until the next one is chosen', async () => {
    const late: (() => void)[] = [];
    const { desk } = await begun(memoryStore(), (heard) =>
      atOnce({ ...heard, next: (next) => late.push(() => heard.next(next)) }),
    );
    const choose = () => {
      for (const chosen of late.splice(0)) chosen();
    };
    await new Promise((resume) => setTimeout(resume, 5));
    expect([desk.state.next, desk.state.choosing]).toEqual([undefined, true]);
    choose();
    const first = desk.state.next;
    expect([first?.asked.kind, desk.state.choosing]).toEqual(['look', false]);
    desk.act((now) => addEntry(now, look('not seen')));
    expect(desk.state.findings?.count).toBe(1);
    expect([desk.state.next, desk.state.choosing]).toEqual([first, true]);
    choose();
    expect(desk.state.choosing).toBe(false);
    expect(desk.state.next).not.toEqual(first);
  });

  test('takes acts back one by one, and a word typed as one', async () => {
    const { desk } = await begun(memoryStore());
    desk.act((now) => addEntry(now, look('not seen')));
    for (const name of ['A', 'Al', 'Ali']) desk.act((now) => changeJob(now, { name }), 'name');
    expect(desk.state.job!.name).toBe('Ali');
    desk.undo();
    expect(desk.state.job!.name).toBe('Hall');
    expect(desk.state.job!.entries).toHaveLength(1);
    desk.undo();
    expect([desk.state.job!.entries, desk.state.before]).toEqual([[], []]);
  });

  test('begins without a system, learns it, and forgets it when that is taken back', async () => {
    const store = memoryStore();
    const desk = await deskOn(store);
    const job = await desk.begin(null, {
      name: '',
      place: '',
      complaint: { id: 'no-heating-hot-water-works', words: 'No heating' },
    });
    expect([desk.state.job!.system, desk.state.sheet]).toEqual([null, null]);
    desk.recognise(SYSTEM, {
      seen: [{ mode: 'heating', outcome: 'E1.burner', answer: 'not seen' }],
    });
    expect(desk.state.job).toMatchObject({ id: job.id, system: SYSTEM.id, wiring: 1 });
    expect(desk.state.job!.entries).toHaveLength(1);
    await desk.settled();
    expect(desk.state.sheet?.id).toBe(SYSTEM.id);
    // Once known it is not changed for another.
    desk.recognise({ ...SYSTEM, id: 'combi-volt-free' }, {});
    expect(desk.state.job!.system).toBe(SYSTEM.id);
    desk.undo();
    expect(desk.state).toMatchObject({ sheet: null, findings: null, next: undefined });
    expect(desk.state.job!.system).toBeNull();
    await desk.settled();
    expect((await keptIn(store, job.id)).job.system).toBeNull();
  });

  test('ranks anew after every entry and after taking one back', async () => {
    const { desk } = await begun(memoryStore());
    await Promise.resolve();
    const before = desk.state.findings;
    expect(before!.count).toBe(0);
    desk.act((now) => addEntry(now, look('not seen')));
    expect(desk.state.findings!.count).toBe(1);
    desk.undo();
    expect(desk.state.findings).toEqual(before);
  });

  test('asks the engine again for what changes the ranking, and for nothing else', async () => {
    const asked: Omit<Request, 'pairs'>[] = [];
    const { desk } = await begun(memoryStore(), (heard) => {
      const client = atOnce(heard);
      return {
        ...client,
        find: (wanted) => {
          asked.push(wanted);
          client.find(wanted);
        },
      };
    });
    await Promise.resolve();
    const since = () => asked.splice(0).map(({ mode, entries }) => [mode, entries.length]);
    expect(since()).toEqual([['heating', 0]]);
    const before = desk.state.next;
    desk.act((now) => changeJob(now, { mode: 'hot-tap' }));
    expect(since()).toEqual([['hot-tap', 0]]);
    desk.act((now) => leaveOut(now, before!.id));
    expect(since()).toEqual([['hot-tap', 0]]);
    expect(desk.state.next).not.toEqual(before);
    desk.act((now) => changeJob(now, { history: 'since work' }));
    expect(since()).toEqual([['hot-tap', 0]]);
    desk.act((now) => addEntry(now, look('not seen')));
    expect(since()).toEqual([['heating', 1]]);
    desk.act((now) => addRepair(now, 'Fuse put in'));
    expect(since()).toEqual([['heating', 0]]);
    desk.act((now) => changeRepair(now, 'Fuse of 3 A put in'));
    desk.act((now) => changeJob(now, { notes: 'Key next door' }));
    desk.act((now) => addPhoto(now, { id: 'p', at: now.started, caption: '' }));
    desk.turn({ view: 'record' });
    expect(since()).toEqual([]);
    desk.undo();
    expect(since()).toEqual([['heating', 0]]);
  });

  test('says so when saving fails, and keeps what was entered', async () => {
    const store = memoryStore();
    const full: JobStore = {
      ...store,
      kept: 'device',
      put: () => Promise.reject(new Error('full')),
    };
    const { desk } = await begun(full);
    desk.act((now) => addEntry(now, look('seen')));
    await desk.settled();
    expect(desk.state.kept).toBe('unsaved');
    expect(desk.state.job!.entries).toHaveLength(1);
  });

  test('never writes over what another window has saved since', async () => {
    const store = memoryStore();
    const { desk, job } = await begun(store);
    const other = await deskOn(store);
    await other.open(job.id);
    other.act((now) => changeJob(now, { name: 'Other' }));
    await other.settled();
    desk.act((now) => changeJob(now, { name: 'Mine' }));
    await desk.settled();
    expect(desk.state.job!.name).toBe('Other');
    expect(desk.state.notice).toMatch(/changed in another window/);
    expect((await keptIn(store, job.id)).job.name).toBe('Other');
  });

  test('takes nothing that could not be read again, and says why', async () => {
    const { desk } = await begun(memoryStore());
    const full = Array.from({ length: MOST_ENTRIES }, () => look('seen'));
    desk.act((now) => full.reduce((job, one) => addEntry(job, one), now));
    expect(desk.state.job!.entries).toHaveLength(MOST_ENTRIES);
    desk.act((now) => addEntry(now, look('not seen')));
    expect(desk.state.job!.entries).toHaveLength(MOST_ENTRIES);
    expect(desk.state.notice).toBe(
      'A job holds at most 2000 readings: begin another job for what follows.',
    );
    desk.act((now) =>
      Array.from({ length: MOST_REPAIRS + 1 }).reduce<Job>((job) => addRepair(job, 'x'), now),
    );
    expect(desk.state.notice).toBe(
      'A job holds at most 200 repairs: begin another job for what follows.',
    );
    desk.act((now) => changeJob(now, { notes: 'n'.repeat(5000) }));
    expect(desk.state.notice).toMatch(/^That cannot be kept with a job, so it was not taken: /);
    expect([desk.state.job!.notes, desk.state.job!.repairs]).toEqual(['', []]);
  });

  test('lists what cannot be read, and does not open it', async () => {
    const { record } = SHAPES.find(({ name }) => name === 'v3')!;
    const lost = unread({ ...record, job: { ...record.job, entries: 1 } }, 'lost', 'damaged', 'x');
    const desk = await deskOn(memoryStore('newer', [lost]));
    expect([desk.state.kept, desk.state.jobs]).toEqual(['newer', []]);
    expect(desk.state.unread).toEqual([lost]);
    expect(await desk.open('lost')).toBe(false);
    expect(desk.state.job).toBeNull();
  });

  test('says so when the list cannot be read', async () => {
    const desk = await deskOn({ ...memoryStore(), all: () => Promise.reject(new Error('no')) });
    expect([desk.state.ready, desk.state.kept, desk.state.jobs]).toEqual([true, 'unread', []]);
  });

  test('an import that finds no room leaves nothing behind', async () => {
    const store = memoryStore();
    const full: JobStore = { ...store, put: () => Promise.reject(new Error('no room')) };
    const desk = await deskOn(full);
    const job = newJob(SYSTEM, { name: '', place: '' });
    await expect(desk.keep(job, [['p', new Blob(['x'])]])).rejects.toThrow('no room');
    expect([await store.picture('p'), desk.state.jobs]).toEqual([undefined, []]);
  });

  describe('when a newer page needs the jobs', () => {
    /** A desk on a store, and what its store would tell it. */
    async function told(store: JobStore) {
      let heard: StoreHeard | undefined;
      const desk = await deskOn(store, atOnce, (told) => {
        heard = told;
      });
      await desk.begin(SYSTEM, { name: 'Hall', place: '' });
      return { desk, heard: heard!, id: desk.state.job!.id };
    }

    test('saves what is not saved yet, and takes nothing after it', async () => {
      const store = memoryStore();
      const { desk, heard, id } = await told(store);
      desk.act((now) => changeJob(now, { notes: 'last words' }));
      await heard.leaving();
      expect(desk.state.kept).toBe('closed');
      expect((await keptIn(store, id)).job.notes).toBe('last words');
      desk.act((now) => changeJob(now, { notes: 'too late' }));
      desk.turn({ view: 'record' });
      desk.undo();
      await desk.settled();
      expect([desk.state.job!.notes, desk.state.place.view]).toEqual(['last words', 'next']);
      expect(desk.state.kept).toBe('closed');
    });

    test('takes nothing more of a job that the newer page has gone on with', async () => {
      const store = memoryStore();
      const ahead = unread({}, 'x', 'newer', 'its version is 9.');
      const { desk } = await told({
        ...store,
        put: async (kept) => (kept.saved > 1 ? false : store.put(kept)),
        get: async () => ahead,
      });
      desk.act((now) => changeJob(now, { notes: 'mine' }));
      await desk.settled();
      expect(desk.state.kept).toBe('closed');
    });

    test('says that it waits while an older page holds them', async () => {
      const seen: boolean[] = [];
      const desk = new Desk(
        {
          ...effectsOf(memoryStore(), atOnce),
          openStore: async (heard) => {
            heard.waiting();
            return memoryStore();
          },
        },
        ({ waiting }) => seen.push(waiting),
      );
      await desk.start();
      expect([seen[0], desk.state.waiting]).toEqual([true, false]);
    });

    test('a job that stands open is saved again where the browser took the jobs away', async () => {
      const store = memoryStore();
      const { desk, heard, id } = await told(store);
      await store.remove(id, []);
      heard.lost();
      await desk.settled();
      expect((await keptIn(store, id)).job.name).toBe('Hall');
    });
  });

  test('forgets a job with its pictures', async () => {
    const store = memoryStore();
    const { desk, job } = await begun(store);
    await store.putPicture('p', new Blob(['x']));
    await desk.close();
    await desk.remove({ id: job.id, photos: ['p'] });
    expect(await store.all()).toEqual({ jobs: [], unread: [] });
    expect(await store.picture('p')).toBeUndefined();
  });
});
