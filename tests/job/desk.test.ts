import { describe, expect, test } from 'vitest';
import type { EngineClient, Heard } from '../../src/job/client.ts';
import { Desk } from '../../src/job/desk.ts';
import { newDraft } from '../../src/job/draft.ts';
import type { Request } from '../../src/job/engine.ts';
import { addEntry, changeJob } from '../../src/job/job.ts';
import { type JobStore, type KeptJob, memoryStore } from '../../src/job/store.ts';
import { systemForJob } from './systems.ts';

const { engine } = systemForJob('combi-two-wire');
const SYSTEM = { id: 'combi-two-wire', title: 'Combi', wiring: 1 };
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
    close: () => undefined,
  };
}

async function deskOn(store: JobStore, engineOf = atOnce): Promise<Desk> {
  const desk = new Desk(
    {
      openStore: async () => store,
      startEngine: (_, heard) => {
        const client = engineOf(heard);
        queueMicrotask(() => heard.opened(engine.sheet));
        return client;
      },
      remember: () => undefined,
      afterPaint: (call) => setTimeout(call),
    },
    () => undefined,
  );
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
  const job = await desk.begin(SYSTEM, { name: 'Hall', place: '', mode: 'heating' });
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
    expect([desk.state.job!.entries, desk.state.undoable]).toEqual([[], false]);
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
