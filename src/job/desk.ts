import { isAsked, metFirst, refusalOf } from './acts.ts';
import type { EngineClient, Heard } from './client.ts';
import { type DeskState, dueKey, EMPTY_DESK, NO_ENGINE } from './desk-state.ts';
import { askedIn } from './draft.ts';
import {
  type Beginning,
  isKnown,
  type Job,
  type JobSystem,
  newJob,
  openEntries,
  type Told,
  withSpecification,
  withSystem,
} from './job.ts';
import { AT_START, type Place } from './place.ts';
import { provingReadings, supplyReadings } from './proving.ts';
import type { JobStore, KeptJob, StoreHeard } from './store.ts';
import { type Subject, subjectOf } from './subject.ts';

/** What the desk needs of its surroundings. */
export interface DeskEffects {
  readonly openStore: (heard: StoreHeard) => Promise<JobStore>;
  /** The id that a system has now; a job may bear one that it had when the job was begun. */
  readonly systemNow: (id: string) => string;
  readonly startEngine: (subject: Subject, heard: Heard) => EngineClient;
  /** Remembers which job stood open, for the next time the page is opened. */
  readonly remember: (id: string | null) => void;
  /** Calls once what was shown last is on the screen, or soon where nothing is painted. */
  readonly afterPaint: (call: () => void) => void;
}

/** Acts that can be taken back, at most. */
const MOST_UNDO = 50;

/**
 * The desk: the open job, its saving, and the engine's answers. Every act is saved as soon as
 * it is on the screen; what the page shows is told to `show`.
 */
export class Desk {
  #state: DeskState = EMPTY_DESK;
  readonly #effects: DeskEffects;
  readonly #show: (state: DeskState) => void;
  #store: JobStore | undefined;
  #engine: EngineClient | undefined;
  /** What the last act went on with, where it was one of a run. */
  #run = '';
  #saved = 0;
  /** Whether something was done that is not on its way to the store yet. */
  #unsaved = false;
  #saving: Promise<void> = Promise.resolve();
  #closed = false;

  constructor(effects: DeskEffects, show: (state: DeskState) => void) {
    this.#effects = effects;
    this.#show = show;
  }

  get state(): DeskState {
    return this.#state;
  }

  /** Opens the store and lists what it holds. */
  async start(): Promise<void> {
    this.#store = await this.#effects.openStore({
      waiting: () => this.#set({ waiting: true }),
      leaving: () => this.#leave(),
      // What is open here is still whole: it is saved into what is opened anew.
      lost: () => void this.#save(),
    });
    this.#set({ waiting: false, kept: this.#store.kept });
    await this.list();
    this.#set({ ready: true });
  }

  /** Reads the list of jobs anew. */
  async list(): Promise<void> {
    try {
      const { jobs, unread } = (await this.#store?.all()) ?? { jobs: [], unread: [] };
      this.#set({ jobs: jobs.map(({ job }) => job), unread });
    } catch {
      if (!this.#closed) this.#set({ kept: 'unread' });
    }
  }

  /** Begins a job and opens it. */
  async begin(system: JobSystem | null, words: Beginning): Promise<Job> {
    const job = newJob(system, words);
    this.#take({ job, saved: 0, place: AT_START });
    await this.#save();
    return job;
  }

  /** Says which system the open job is of, with what the complaint says of it. */
  recognise(system: JobSystem, told: Told): void {
    const { job } = this.#state;
    if (!job || isKnown(job)) return;
    this.act((now) => withSystem(now, system, told));
    this.#start({ kind: 'entry', id: system.id });
  }

  /** Says that the open job, whose system nobody knew, is of an arrangement from parts. */
  recogniseComposed(specification: string): void {
    const { job } = this.#state;
    if (!job || isKnown(job)) return;
    this.act((now) => withSpecification(now, specification));
    this.#start({ kind: 'composed', specification });
  }

  /** Opens a kept job where it was left. @returns whether there is one that can be read. */
  async open(id: string): Promise<boolean> {
    if (this.#state.job?.id === id) return true;
    await this.settled();
    const kept = await this.#store?.get(id).catch(() => undefined);
    if (!kept || !('job' in kept)) return false;
    this.#take(kept);
    return true;
  }

  /** Lays the open job aside. */
  async close(): Promise<void> {
    await this.settled();
    await this.#clearPictures();
    this.#stop();
    this.#effects.remember(null);
    this.#set({ job: null, before: [], notice: '' });
    await this.list();
  }

  /**
   * Changes the job; the act can be taken back.
   * @param run name of a run of acts that are taken back as one, as the letters of a word.
   */
  act(change: (job: Job) => Job, run = ''): void {
    const { job } = this.#state;
    if (!job || this.#closed) return;
    const changed = change(job);
    if (changed === job) return;
    const refused = refusalOf(changed);
    if (refused !== null) {
      this.say(refused);
      return;
    }
    const isNew = run === '' || run !== this.#run;
    const before = isNew ? [...this.#state.before, job].slice(-MOST_UNDO) : this.#state.before;
    this.#run = run;
    this.#set({ job: changed, before, notice: '' });
    if (isAsked(job, changed)) this.ask();
    this.#saveSoon();
    this.#askDues();
  }

  /** Takes the last act back. */
  undo(): void {
    const { job, before } = this.#state;
    const last = before.at(-1);
    if (!last || !job || this.#closed) return;
    this.#run = '';
    this.#set({
      job: { ...last, changed: new Date().toISOString() },
      before: before.slice(0, -1),
      notice: 'Taken back.',
    });
    if (!isKnown(last)) this.#stop();
    this.ask();
    this.#saveSoon();
  }

  /** Turns to another page of the job, or on with a reading half entered. */
  turn(to: Partial<Place>): void {
    if (!this.#state.job || this.#closed) return;
    this.#set({ place: { ...this.#state.place, ...to }, notice: '' });
    this.#saveSoon();
    this.#askDues();
  }

  say(notice: string): void {
    this.#set({ notice });
  }

  /** Deletes a job with its pictures. */
  async remove({ id, photos }: { id: string; photos: readonly string[] }): Promise<void> {
    await this.settled();
    await this.#store?.remove(id, photos);
    await this.list();
  }

  /**
   * Keeps a job that came from elsewhere.
   * @throws Error in words for the reader when it cannot be kept; nothing of it is left then.
   */
  async keep(job: Job, pictures: readonly (readonly [id: string, picture: Blob])[]): Promise<void> {
    const store = this.#store;
    if (!store) return;
    const kept: string[] = [];
    try {
      for (const [id, picture] of pictures) {
        await store.putPicture(id, picture);
        kept.push(id);
      }
      await store.put({ job, saved: 1, place: { view: 'record', draft: null } });
    } catch (failure) {
      for (const id of kept) await store.removePicture(id).catch(() => undefined);
      throw failure;
    }
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
    const { mode, history, cannot, sequence } = job;
    this.#engine.find({ entries, mode, history, cannot, sequence });
  }

  /** Asks what a repair of the ranking leaves of the circuit: worked out where it is shown. */
  askPath(key: string): void {
    if (this.#state.path?.key !== key) this.#engine?.path(key);
  }

  /** Asks for the drawing of an arrangement from parts, once. */
  askDrawing(): void {
    if (this.#state.drawing === null) this.#engine?.draw();
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

  #take({ job: asKept, saved, place }: KeptJob): void {
    const job = {
      ...asKept,
      system: asKept.system === null ? null : this.#effects.systemNow(asKept.system),
    };
    this.#engine?.close();
    this.#run = '';
    this.#saved = saved;
    this.#effects.remember(job.id);
    this.#set({
      job,
      place,
      ...NO_ENGINE,
      before: [],
      notice: '',
    });
    this.#start(subjectOf(job));
  }

  #stop(): void {
    this.#engine?.close();
    this.#engine = undefined;
    this.#set(NO_ENGINE);
  }

  /** Starts the engine of what the open job is about, once that is known. */
  #start(subject: Subject | null): void {
    if (subject === null) return;
    try {
      this.#engine = this.#effects.startEngine(subject, this.#heard);
    } catch (failure) {
      this.#set({ broken: failure instanceof Error ? failure.message : String(failure) });
    }
  }

  /** What the engine is heard to say. */
  readonly #heard: Heard = {
    opened: (sheet, shows) => {
      // An arrangement from parts that is worked out for the first time: what it came to is kept.
      const met = this.#state.job && metFirst(this.#state.job, sheet, shows ?? {});
      this.#set({ sheet, ...(met && { job: met, before: [] }) });
      if (met) this.#saveSoon();
      this.ask();
      this.#askDues();
    },
    standing: (composed) => {
      const { sheet } = this.#state;
      if (sheet) this.#set({ sheet: { ...sheet, composed } });
    },
    drawn: (drawing) => this.#set({ drawing }),
    failed: (broken) => this.#set({ broken }),
    found: (findings) => this.#set({ findings, path: null }),
    shown: (said, modes) => this.#set({ shown: { said, modes } }),
    path: (key, path) => this.#set({ path: { key, path } }),
    next: (next) => this.#set({ next, choosing: false }),
    due: (asked, due) => {
      const dues = new Map(this.#state.dues);
      for (const [i, one] of asked.entries()) dues.set(dueKey(one), due[i]!);
      this.#set({ dues });
    },
  };

  /** Asks what a sound system shows wherever the page wants to say it and does not know yet. */
  #askDues(): void {
    const { job, place, sheet, dues } = this.#state;
    if (!job || !sheet) return;
    const drafted = place.draft ? askedIn(place.draft) : null;
    const wanted = [
      ...(drafted ? [drafted] : []),
      ...(place.view === 'record'
        ? [...provingReadings(job), ...supplyReadings(sheet, job)].map(({ asked }) => asked)
        : []),
    ].filter((asked) => !dues.has(dueKey(asked)));
    if (place.view === 'record') this.#askShown(job);
    if (wanted.length > 0) this.#engine?.due(wanted, drafted !== null && wanted[0] === drafted);
  }

  /** Asks in which modes the cause of the last repair would have shown: one of them proves it. */
  #askShown(job: Job): void {
    const said = job.repairs.at(-1)?.text;
    if (said === undefined || this.#state.shown?.said === said) return;
    const entries = job.entries
      .filter(({ round }) => round === job.repairs.length - 1)
      .map(({ id, observation }) => ({ id, observation }));
    const { mode, history } = job;
    this.#engine?.shown({ entries, mode, history, cannot: [] }, said);
  }

  /** Pictures of photos that were taken off can be brought back until the job is laid aside. */
  async #clearPictures(): Promise<void> {
    const kept = new Set(this.#state.job?.photos.map(({ id }) => id));
    const dropped = new Set(this.#state.before.flatMap(({ photos }) => photos.map(({ id }) => id)));
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
    const kept = { job, saved: ++this.#saved, place };
    this.#saving = this.#saving.then(async () => {
      try {
        if (await store.put(kept)) this.#set({ kept: this.#closed ? 'closed' : store.kept });
        else await this.#takeOther(job.id);
      } catch {
        this.#set({ kept: this.#closed ? 'closed' : 'unsaved' });
      }
    });
    return this.#saving;
  }

  /** A newer page takes the jobs over: what was done here is saved first. */
  async #leave(): Promise<void> {
    this.flush();
    this.#shut();
    await this.#saving;
  }

  /** Takes nothing more: it could not be saved. */
  #shut(): void {
    this.#closed = true;
    this.#set({ kept: 'closed' });
  }

  /** Another page has saved this job since: what it saved stands. */
  async #takeOther(id: string): Promise<void> {
    const other = await this.#store?.get(id);
    if (!other || this.#state.job?.id !== id) return;
    if (!('job' in other)) {
      // A newer page has gone on with it.
      this.#shut();
      return;
    }
    this.#take(other);
    this.say('This job was changed in another window; it is shown as it was left there.');
  }

  #set(change: Partial<DeskState>): void {
    this.#state = { ...this.#state, ...change };
    this.#show(this.#state);
  }
}
