import type { Observation } from '../../diagnosis/inference/index.ts';
import type { AsFound } from '../../wiring/as-found/index.ts';
import type { EngineSource } from '../messages.ts';
import { addressOf, fragmentOf } from './address.ts';
import type { FoundSheet } from './found-sheet.ts';
import type { FromFound, ToFound } from './messages.ts';
import type { FoundResult, Suggestion } from './result.ts';

/** A job whose readings are held against the marks. */
export interface FoundJob {
  readonly id: string;
  readonly title: string;
  readonly system: string;
  readonly readings: readonly Observation[];
}

/** Everything the page shows. */
export interface FoundState {
  readonly sheet: FoundSheet | null;
  /** Why nothing can be worked out; empty while it can. */
  readonly broken: string;
  readonly marks: AsFound;
  /** What follows from the marks, or from those before while it is worked out. */
  readonly result: FoundResult | null;
  readonly working: boolean;
  /** What is to be said of the link; empty where nothing is. */
  readonly message: string;
  /** Marks that are shown when the reader asks: an outdated link's, or those kept here before. */
  readonly offer: { readonly kind: 'outdated' | 'before'; readonly marks: AsFound } | null;
  readonly job: FoundJob | null;
  readonly readings: readonly Observation[];
  readonly suggestions: readonly Suggestion[];
  readonly undoable: boolean;
}

/** What the page needs of its surroundings. */
export interface FoundEffects {
  readonly startWorker: (listen: (message: FromFound) => void) => (message: ToFound) => void;
  /** The address's fragment, and writing it without a step in the history. */
  readonly fragment: () => string;
  readonly setFragment: (fragment: string) => void;
  /** Whether a fragment is the name of a place on the page. */
  readonly isPlace: (fragment: string) => boolean;
  /** The marks as they were left in this browser; null where there are none. */
  readonly kept: () => string | null;
  readonly keep: (text: string | null) => void;
  readonly job: (id: string) => Promise<FoundJob | null>;
  /** Where the page's system comes from. */
  readonly data: EngineSource;
}

const MOST_UNDO = 50;
/** Nothing marked: written out here, so that the page brings no circuit along. */
const NONE: AsFound = {
  cables: {},
  ends: [],
  missingLinks: [],
  extraLinks: [],
  bridged: [],
  absent: [],
  ratings: {},
};
const isNothing = (marks: AsFound) => JSON.stringify(marks) === JSON.stringify(NONE);

/** What is said of marks kept here that cannot be shown. */
const keptMessage = ({ problem, message }: { problem: string; message: string }) =>
  problem === 'newer'
    ? 'What was marked here before was kept by a newer version of these pages, and stays as it is: load the newer version to see it. What you mark now is kept in the address only.'
    : `What was marked here before cannot be shown: ${message.replace(/^This link/, 'it').replace(/ Nothing of it was taken over\..*$/, '')} It is kept until something is marked here.`;

/**
 * The page of a circuit as found: the marks, what follows from them, and the links they come
 * and go by. A link that cannot be shown changes nothing of what stands here.
 */
export class FoundDesk {
  #state: FoundState = {
    sheet: null,
    broken: '',
    marks: NONE,
    result: null,
    working: true,
    message: '',
    offer: null,
    job: null,
    readings: [],
    suggestions: [],
    undoable: false,
  };
  readonly #effects: FoundEffects;
  readonly #show: (state: FoundState) => void;
  readonly #post: (message: ToFound) => void;
  #before: AsFound[] = [];
  #number = 0;
  /** Sealed texts that were given to be read, and what each is. */
  readonly #asked = new Map<string, 'link' | 'kept'>();
  /** Whether the reader has marked anything since the page or a link was opened. */
  #touched = false;
  /** Whether what is kept here is of a newer page, and so not written over. */
  #keptAhead = false;
  /** Fragment as this page wrote it last. */
  #written: string | null = null;

  constructor(effects: FoundEffects, show: (state: FoundState) => void) {
    this.#effects = effects;
    this.#show = show;
    this.#post = effects.startWorker((message) => this.#hear(message));
    this.#post({ type: 'open', ...effects.data });
  }

  get state(): FoundState {
    return this.#state;
  }

  /** Follows an address that was changed by hand or by another link. */
  follow(): void {
    const fragment = this.#effects.fragment();
    if (fragment === this.#written) return;
    if (this.#effects.isPlace(fragment)) {
      // A place on the page was gone to: the address goes on holding the marks.
      if (this.#written !== null) this.#effects.setFragment(this.#written);
      return;
    }
    this.#open(fragment);
  }

  /** Marks something; the act can be taken back. */
  mark(change: (marks: AsFound) => AsFound): void {
    this.#before = [...this.#before, this.#state.marks].slice(-MOST_UNDO);
    this.#touch(change(this.#state.marks));
  }

  undo(): void {
    const last = this.#before.at(-1);
    if (!last) return;
    this.#before = this.#before.slice(0, -1);
    this.#touch(last);
  }

  clear = (): void => this.mark(() => NONE);

  /** Shows the marks that were offered. */
  takeOffer(): void {
    const { offer } = this.#state;
    if (offer) this.mark(() => offer.marks);
  }

  /** Address of a page that shows just this, anywhere; null where it is too much for a link. */
  link(page: string): string | null {
    const { result } = this.#state;
    if (!result?.link) return null;
    const fragment = fragmentOf({ marks: result.link, job: null, readings: result.readingsLink });
    return `${page}#${fragment}`;
  }

  #touch(marks: AsFound): void {
    this.#touched = true;
    this.#set({ marks, message: '', offer: null, undoable: this.#before.length > 0 });
    this.#work();
  }

  #work(): void {
    this.#number += 1;
    const { marks: found, readings } = this.#state;
    this.#set({ working: true });
    this.#post({ type: 'work', number: this.#number, found, readings });
  }

  #open(fragment: string): void {
    const { marks, job, readings, foreign } = addressOf(fragment);
    const kept = this.#effects.kept();
    this.#touched = false;
    this.#set({ message: '', offer: null, job: null, readings: [], suggestions: [] });
    if (kept !== null) this.#ask(kept, 'kept');
    const link = marks ?? (foreign === '' ? null : foreign);
    if (link !== null) this.#ask(link, 'link');
    if (readings !== null) this.#post({ type: 'read readings', text: readings });
    if (job !== null) void this.#openJob(job);
    if (kept === null && link === null) this.#work();
  }

  #ask(text: string, as: 'link' | 'kept'): void {
    this.#asked.set(text, as);
    this.#post({ type: 'read', text });
  }

  async #openJob(id: string): Promise<void> {
    const job = await this.#effects.job(id);
    const { sheet } = this.#state;
    if (!job || !sheet) {
      this.#set({ message: 'That job is not kept in this browser: its readings are not shown.' });
      return;
    }
    if (job.system !== sheet.id) {
      this.#set({ message: 'That job is on another system: its readings are not shown.' });
      return;
    }
    this.#set({ job });
    this.#takeReadings(job.readings);
  }

  #takeReadings(readings: readonly Observation[]): void {
    this.#set({ readings, suggestions: [] });
    this.#work();
    if (readings.length > 0) this.#post({ type: 'suggest', readings });
  }

  #hear(message: FromFound): void {
    switch (message.type) {
      case 'opened':
        this.#set({ sheet: message.sheet });
        this.#open(this.#effects.isPlace(this.#effects.fragment()) ? '' : this.#effects.fragment());
        return;
      case 'failed':
        this.#set({ broken: message.reason, working: false });
        return;
      case 'read':
        this.#heardLink(message);
        return;
      case 'readings':
        if ('readings' in message.readings) this.#takeReadings(message.readings.readings);
        else this.#set({ message: message.readings.message });
        return;
      case 'worked':
        if (message.number !== this.#number) return;
        this.#worked(message.result);
        return;
      case 'suggested':
        this.#set({ suggestions: message.suggestions });
        return;
    }
  }

  #heardLink({ text, link }: Extract<FromFound, { type: 'read' }>): void {
    const as = this.#asked.get(text);
    if (as === 'kept') {
      if ('found' in link) this.#set({ marks: link.found });
      else if (link.outdated)
        this.#set({
          message: 'What was marked here before was on an earlier version of the wiring.',
          offer: { kind: 'outdated', marks: link.outdated },
        });
      else {
        // It stays: only what a reader marks anew takes its place, and never that of a newer page.
        this.#keptAhead = link.problem === 'newer';
        this.#set({ message: keptMessage(link) });
      }
    } else if ('found' in link) {
      const { marks } = this.#state;
      const differs = JSON.stringify(marks) !== JSON.stringify(link.found);
      const offer = differs && !isNothing(marks) ? { kind: 'before' as const, marks } : null;
      this.#before = [];
      this.#set({ marks: link.found, offer, message: '', undoable: false });
    } else {
      const offer = link.outdated ? { kind: 'outdated' as const, marks: link.outdated } : null;
      this.#set({ message: link.message, offer });
    }
    this.#work();
  }

  #worked(result: FoundResult): void {
    this.#set({ result, marks: result.found, working: false, broken: '' });
    if (!this.#touched) return;
    const nothing = isNothing(result.found);
    if (!this.#keptAhead) this.#effects.keep(nothing ? null : result.link);
    const { readings } = addressOf(this.#effects.fragment());
    const fragment = fragmentOf({
      marks: nothing ? null : result.link,
      job: this.#state.job?.id ?? null,
      readings: this.#state.job ? null : readings,
    });
    this.#written = fragment;
    this.#effects.setFragment(fragment);
  }

  #set(change: Partial<FoundState>): void {
    this.#state = { ...this.#state, ...change };
    this.#show(this.#state);
  }
}
