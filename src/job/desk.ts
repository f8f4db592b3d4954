import type { EngineClient, Heard } from './client.ts';
import type { Draft } from './draft.ts';
import { askedIn } from './draft.ts';
import type { Asked, Due, Findings, NextTest } from './findings.ts';
import { type Beginning, type Job, type JobSystem, newJob, openEntries } from './job.ts';
import { provingReadings } from './proving.ts';
import type { Sheet } from './sheet.ts';
import type { JobStore, KeptJob } from './store.ts';

/** Pages of a job. */
export const VIEWS = ['seen', 'readings', 'causes', 'record'] as const;
export type View = (typeof VIEWS)[number];

/** What stands on the desk beside a job's own words: kept with it, never sent on. */
export interface Place {
  readonly view: View;
  readonly draft: Draft | null;
}

/** Everything the page shows. */
export interface DeskState {
  readonly ready: boolean;
  /** Where jobs are kept; `unsaved` where the last saving failed. */
  readonly kept: 'device' | 'memory' | 'unsaved';
  readonly jobs: readonly Job[];
  readonly job: Job | null;
  readonly place: Place;
  readonly sheet: Sheet | null;
  /** Why the engine cannot work; empty while it can. */
  readonly broken: string;
  readonly findings: Findings | null;
  /** undefined until one is chosen. */
  readonly next: NextTest | null | undefined;
  /** Whether `next` is of before the last act, and another is being chosen. */
  readonly choosing: boolean;
  /** What a sound system shows, by what is asked; see `dueKey`. */
  readonly dues: ReadonlyMap<string, Due>;
  readonly undoable: boolean;
  /** Something to be said once. */
  readonly notice: string;
}

/** What the desk needs of its surroundings. */
export interface DeskEffects {
  readonly openStore: () => Promise<JobStore>;
  readonly startEngine: (system: string, heard: Heard) => EngineClient;
  /** Remembers which job stood open, for the next time the page is opened. */
  readonly remember: (id: string | null) => void;
  /** Calls once what was shown last is on the screen, or soon where nothing is painted. */
  readonly afterPaint: (call: () => void) => void;
}

/** Acts that can be taken back, at most. */
const MOST_UNDO = 50;
const AT_START: Place = { view: 'seen', draft: null };

export const dueKey = (asked: Asked): string => JSON.stringify(asked);

/**
 * The desk: the open job, its saving, and the engine's answers. Every act is saved as soon as
 * it is on the screen; what the page shows is told to `show`.
 */
export class Desk {
  #state: DeskState = {
    ready: false,
    kept: 'device',
    jobs: [],
    job: null,
    place: AT_START,
    sheet: null,
    broken: '',
    findings: null,
    next: undefined,
    choosing: false,
    dues: new Map(),
    undoable: false,
    notice: '',
  };
  readonly #effects: DeskEffects;
  readonly #show: (state: DeskState) => void;
  #store: JobStore | undefined;
  #engine: EngineClient | undefined;
  #before: Job[] = [];
  /** What the last act went on with, where it was one of a run. */
  #run = '';
  #saved = 0;
  /** Whether something was done that is not on its way to the store yet. */
  #unsaved = false;
  #saving: Promise<void> = Promise.resolve();

  constructor(effects: DeskEffects, show: (state: DeskState) => void) {
    this.#effects = effects;
    this.#show = show;
  }

  get state(): DeskState {
    return this.#state;
  }

  /** Opens the store and lists what it holds. */
  async start(): Promise<void> {
    this.#store = await this.#effects.openStore();
    this.#set({ kept: this.#store.kept });
    await this.list();
    this.#set({ ready: true });
  }

  /** Reads the list of jobs anew. */
  async list(): Promise<void> {
    try {
      const all = (await this.#store?.all()) ?? [];
      this.#set({ jobs: all.map(({ job }) => job) });
    } catch {
      this.#set({ kept: 'unsaved' });
    }
  }

  /** Begins a job and opens it. */
  async begin(system: JobSystem, words: Beginning): Promise<Job> {
    const job = newJob(system, words);
    this.#take({ job, saved: 0, desk: AT_START });
    await this.#save();
    return job;
  }

  /** Opens a kept job where it was left. @returns whether there is one. */
  async open(id: string): Promise<boolean> {
    if (this.#state.job?.id === id) return true;
    await this.settled();
    const kept = await this.#store?.get(id).catch(() => undefined);
    if (!kept) return false;
    this.#take(kept);
    return true;
  }

  /** Lays the open job aside. */
  async close(): Promise<void> {
    await this.settled();
    await this.#clearPictures();
    this.#engine?.close();
    this.#engine = undefined;
    this.#effects.remember(null);
    this.#set({ job: null, sheet: null, broken: '', findings: null, next: undefined, notice: '' });
    await this.list();
  }

  /**
   * Changes the job; the act can be taken back.
   * @param run name of a run of acts that are taken back as one, as the letters of a word.
   */
  act(change: (job: Job) => Job, run = ''): void {
    const { job } = this.#state;
    if (!job) return;
    const changed = change(job);
    if (changed === job) return;
    if (run === '' || run !== this.#run) this.#before = [...this.#before, job].slice(-MOST_UNDO);
    this.#run = run;
    this.#set({ job: changed, undoable: true, notice: '' });
    if (isAsked(job, changed)) this.ask();
    this.#saveSoon();
    this.#askDues();
  }

  /** Takes the last act back. */
  undo(): void {
    const last = this.#before.at(-1);
    const { job } = this.#state;
    if (!last || !job) return;
    this.#before = this.#before.slice(0, -1);
    this.#run = '';
    this.#set({
      job: { ...last, changed: new Date().toISOString() },
      undoable: this.#before.length > 0,
      notice: 'Taken back.',
    });
    this.ask();
    this.#saveSoon();
  }

  /** Turns to another page of the job, or on with a reading half entered. */
  turn(to: Partial<Place>): void {
    if (!this.#state.job) return;
    this.#set({ place: { ...this.#state.place, ...to }, notice: '' });
    this.#saveSoon();
    this.#askDues();
  }

  say(notice: string): void {
    this.#set({ notice });
  }

  /** Deletes a job with its pictures. */
  async remove(job: Job): Promise<void> {
    await this.settled();
    await this.#store?.remove(job);
    await this.list();
  }

  /** Keeps a job that came from elsewhere. */
  async keep(job: Job, pictures: readonly (readonly [id: string, picture: Blob])[]): Promise<void> {
    for (const [id, picture] of pictures) await this.#store?.putPicture(id, picture);
    await this.#store?.put({ job, saved: 1, desk: { view: 'record', draft: null } });
    await this.list();
  }

  picture = (id: string): Promise<Blob | undefined> =>
    this.#store?.picture(id) ?? Promise.resolve(undefined);
  putPicture = (id: string, picture: Blob): Promise<void> =>
    this.#store?.putPicture(id, picture) ?? Promise.resolve();

  /** Ranks what was found anew. */
  ask(): void {
    const { job, sheet } = this.#state;
    if (!job || !sheet || !this.#engine) return;
    this.#set({ choosing: true });
    const entries = openEntries(job).map(({ id, observation }) => ({ id, observation }));
    this.#engine.find({ entries, mode: job.mode });
  }

  /** Sends what is not saved yet to the store now: the page is about to go. */
  flush(): void {
    if (this.#unsaved) void this.#save();
  }

  /** Waits until all that was done is saved. */
  settled(): Promise<void> {
    this.flush();
    return this.#saving;
  }

  #take({ job, saved, desk }: KeptJob): void {
    this.#engine?.close();
    this.#before = [];
    this.#run = '';
    this.#saved = saved;
    this.#effects.remember(job.id);
    this.#set({
      job,
      place: placeFrom(desk),
      sheet: null,
      broken: '',
      findings: null,
      next: undefined,
      choosing: false,
      dues: new Map(),
      undoable: false,
      notice: '',
    });
    this.#engine = this.#effects.startEngine(job.system, {
      opened: (sheet) => {
        this.#set({ sheet });
        this.ask();
        this.#askDues();
      },
      failed: (broken) => this.#set({ broken }),
      found: (findings) => this.#set({ findings }),
      next: (next) => this.#set({ next, choosing: false }),
      due: (asked, due) => {
        const dues = new Map(this.#state.dues);
        for (const [i, one] of asked.entries()) dues.set(dueKey(one), due[i]!);
        this.#set({ dues });
      },
    });
  }

  /** Asks what a sound system shows wherever the page wants to say it and does not know yet. */
  #askDues(): void {
    const { job, place, sheet, dues } = this.#state;
    if (!job || !sheet) return;
    const drafted = place.draft ? askedIn(place.draft) : null;
    const wanted = [
      ...(drafted ? [drafted] : []),
      ...(place.view === 'record' ? provingReadings(job).map(({ asked }) => asked) : []),
    ].filter((asked) => !dues.has(dueKey(asked)));
    if (wanted.length > 0) this.#engine?.due(wanted, drafted !== null && wanted[0] === drafted);
  }

  /** Pictures of photos that were taken off can be brought back until the job is laid aside. */
  async #clearPictures(): Promise<void> {
    const kept = new Set(this.#state.job?.photos.map(({ id }) => id));
    const dropped = new Set(this.#before.flatMap(({ photos }) => photos.map(({ id }) => id)));
    for (const id of dropped) if (!kept.has(id)) await this.#store?.removePicture(id);
  }

  /** Saves once what was done is on the screen; several acts before that are saved as one. */
  #saveSoon(): void {
    if (this.#unsaved) return;
    this.#unsaved = true;
    this.#effects.afterPaint(() => this.flush());
  }

  #save(): Promise<void> {
    this.#unsaved = false;
    const { job, place } = this.#state;
    if (!job || !this.#store) return this.#saving;
    const store = this.#store;
    const kept = { job, saved: ++this.#saved, desk: place };
    this.#saving = this.#saving.then(async () => {
      try {
        if (await store.put(kept)) this.#set({ kept: store.kept });
        else await this.#takeOther(job.id);
      } catch {
        this.#set({ kept: 'unsaved' });
      }
    });
    return this.#saving;
  }

  /** Another page has saved this job since: what it saved stands. */
  async #takeOther(id: string): Promise<void> {
    const other = await this.#store?.get(id);
    if (!other || this.#state.job?.id !== id) return;
    this.#take(other);
    this.say('This job was changed in another window; it is shown as it was left there.');
  }

  #set(change: Partial<DeskState>): void {
    this.#state = { ...this.#state, ...change };
    this.#show(this.#state);
  }
}

/** Whether an act changed what the engine is asked. */
const isAsked = (before: Job, after: Job): boolean =>
  before.entries !== after.entries ||
  before.repairs.length !== after.repairs.length ||
  before.mode !== after.mode;

/** What was kept of the desk; the start where it is of another version. */
function placeFrom(desk: unknown): Place {
  if (typeof desk !== 'object' || desk === null) return AT_START;
  const { view, draft } = desk as Partial<Place>;
  return {
    view: VIEWS.find((known) => known === view) ?? AT_START.view,
    draft: typeof draft === 'object' && draft !== null && 'kind' in draft ? draft : null,
  };
}
