import type { Asked, Due, Findings, FoundPath, NextTest } from './findings.ts';
import type { Job } from './job.ts';
import { AT_START, type Place } from './place.ts';
import type { Sheet } from './sheet.ts';
import type { UnreadJob, WhereKept } from './store.ts';

/** Everything the page shows. */
export interface DeskState {
  readonly ready: boolean;
  /** Whether an older page must be closed before the jobs can be opened. */
  readonly waiting: boolean;
  /**
   * Where jobs are kept; `unread` where the list of them could not be read, `unsaved` where the
   * last saving failed, `closed` where a newer page has taken the jobs over.
   */
  readonly kept: WhereKept | 'unread' | 'unsaved' | 'closed';
  readonly jobs: readonly Job[];
  /** Kept jobs that cannot be read here. */
  readonly unread: readonly UnreadJob[];
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
  /** What a repair that was asked about leaves of the circuit; null until it is worked out. */
  readonly path: { readonly key: string; readonly path: FoundPath | null } | null;
  /** The drawing of an arrangement from parts; null until it is asked for and drawn. */
  readonly drawing: string | null;
  /** Modes in which the cause of the last repair would have shown; null until they are known. */
  readonly shown: { readonly said: string; readonly modes: readonly string[] } | null;
  /** What a sound system shows, by what is asked; see `dueKey`. */
  readonly dues: ReadonlyMap<string, Due>;
  /** The job before each act that can be taken back, the last act last. */
  readonly before: readonly Job[];
  /** Something to be said once. */
  readonly notice: string;
}

/** What is known while no engine works. */
export const NO_ENGINE = {
  sheet: null,
  broken: '',
  findings: null,
  next: undefined,
  choosing: false,
  path: null,
  drawing: null,
  shown: null,
  dues: new Map<string, Due>(),
} as const;

/** The desk before anything is opened. */
export const EMPTY_DESK: DeskState = {
  ready: false,
  waiting: false,
  kept: 'device',
  jobs: [],
  unread: [],
  job: null,
  place: AT_START,
  ...NO_ENGINE,
  before: [],
  notice: '',
};

/** What is asked, as the key of what a sound system shows. */
export const dueKey = (asked: Asked): string => JSON.stringify(asked);
