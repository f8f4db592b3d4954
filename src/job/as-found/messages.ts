import type { Observation } from '../../diagnosis/inference/index.ts';
import type { AsFound, FoundLink } from '../../wiring/as-found/index.ts';
import type { EngineSource } from '../messages.ts';
import type { FoundSheet } from './found-sheet.ts';
import type { ReadReadings } from './readings-link.ts';
import type { FoundResult, Suggestion } from './result.ts';

/** What the page says to the worker. */
export type ToFound =
  /** Load a system. */
  | ({ readonly type: 'open' } & EngineSource)
  /** Read a link's sealed text. */
  | { readonly type: 'read'; readonly text: string }
  | { readonly type: 'read readings'; readonly text: string }
  /** Work out what follows from what was marked. */
  | {
      readonly type: 'work';
      readonly number: number;
      readonly found: AsFound;
      readonly readings: readonly Observation[];
    }
  /** Rank wiring mistakes for some readings. */
  | { readonly type: 'suggest'; readonly readings: readonly Observation[] };

/** What the worker says to the page. */
export type FromFound =
  | { readonly type: 'opened'; readonly sheet: FoundSheet }
  | { readonly type: 'failed'; readonly reason: string }
  | { readonly type: 'read'; readonly text: string; readonly link: FoundLink }
  | { readonly type: 'readings'; readonly readings: ReadReadings }
  | { readonly type: 'worked'; readonly number: number; readonly result: FoundResult }
  | { readonly type: 'suggested'; readonly suggestions: readonly Suggestion[] };
