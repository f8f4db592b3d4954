import type { Amount, Version } from './manifest.ts';

/** What a page says to a worker. */
export type ToWorker =
  /** Which version serves this page, is it whole, and is there another? */
  | { readonly type: 'state' }
  /** Read all that is kept, and fetch what is lost or damaged. */
  | { readonly type: 'check' }
  /** The reader takes up the version this worker brings. */
  | { readonly type: 'take-up' }
  /** The reader wants these systems' sequences, replacements and jobs kept no longer, all others'. */
  | { readonly type: 'leave-out'; readonly systems: readonly string[] }
  /** A job needs the room: saving stops and gives up what it has saved. */
  | { readonly type: 'stop-saving' };

/** What is on this device of the version that serves a page. */
export interface Holding {
  /** What the device should hold: all of it, but the systems left out. */
  readonly kept: Amount;
  /** What of that is lost. */
  readonly lost: Amount;
  /** Systems left out by the reader, by entry id. */
  readonly leftOut: readonly string[];
}

/** What a worker says to pages. */
export type ToPage =
  /** A version is being saved. */
  | {
      readonly type: 'progress';
      readonly version: Version;
      /** Bytes saved so far, of `version.bytes`. */
      readonly bytes: number;
    }
  /** Saving stopped before its end. */
  | {
      readonly type: 'cut';
      readonly version: Version;
      readonly bytes: number;
      /** Whether the device had no room left, rather than no signal. */
      readonly full: boolean;
    }
  /** Answer to `state` and `check`, and told when what is held has changed. */
  | {
      readonly type: 'state';
      /** Version that serves the page that asked; none before the first is saved. */
      readonly serving: Version | undefined;
      /** Another version, wholly saved, that the page may take up. */
      readonly ready: Version | undefined;
      /** Absent from workers that do not look. */
      readonly holding?: Holding | undefined;
    }
  /** A version was taken up: pages opened from now on are of that version. */
  | { readonly type: 'taken-up'; readonly version: Version };
