import type { Version } from './manifest.ts';

/** What a page says to a worker. */
export type ToWorker =
  /** Which version serves this page, and is there another? */
  | { readonly type: 'state' }
  /** The reader takes up the version this worker brings. */
  | { readonly type: 'take-up' };

/** What a worker says to pages. */
export type ToPage =
  /** A version is being saved. */
  | {
      readonly type: 'progress';
      readonly version: Version;
      /** Bytes saved so far, of `version.bytes`. */
      readonly bytes: number;
    }
  /** Saving stopped before its end; what is whole is kept. */
  | {
      readonly type: 'cut';
      readonly version: Version;
      readonly bytes: number;
      /** Whether the device had no room left, rather than no signal. */
      readonly full: boolean;
    }
  /** Answer to `state`. */
  | {
      readonly type: 'state';
      /** Version that serves the page that asked; none before the first is saved. */
      readonly serving: Version | undefined;
      /** Another version, wholly saved, that the page may take up. */
      readonly ready: Version | undefined;
    }
  /** A version was taken up: pages opened from now on are of that version. */
  | { readonly type: 'taken-up'; readonly version: Version };
