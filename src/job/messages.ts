import type { Sighting } from '../diagnosis/index.ts';
import type { Request } from './engine.ts';
import type { Asked, Due, Findings, FoundPath, NextTest } from './findings.ts';
import type { JobData } from './job-data.ts';
import type { Sheet } from './sheet.ts';

/** Where a system comes from. */
export type EngineSource =
  /** Its data, at an absolute address. */
  | { readonly address: string }
  /** The same, in hand. */
  | { readonly data: JobData }
  /** Put together from parts that lie at an absolute address. */
  | { readonly specification: string; readonly parts: string };

/** What a page says to the engine's worker. */
export type ToEngine =
  /** Load a system. */
  | ({ readonly type: 'open' } & EngineSource)
  /**
   * Rank, then choose a test; answered twice, under the same number. A search for pairs is
   * dropped, and not answered, when another message comes.
   */
  | { readonly type: 'find'; readonly number: number; readonly request: Request }
  /** Say what a sound system shows; then, if wanted, prepare for the answer to the first. */
  | { readonly type: 'due'; readonly asked: readonly Asked[]; readonly prepare: boolean }
  /** Say what a repair’s likeliest cause leaves of the circuit. */
  | { readonly type: 'path'; readonly request: Request; readonly key: string }
  /** Say in which modes the cause of a repair would have shown, by what was found before it. */
  | { readonly type: 'shown'; readonly request: Request; readonly said: string }
  /** Draw the system: an arrangement from parts has no drawing that could be fetched. */
  | { readonly type: 'draw' }
  /** Stop the long work under way: nobody waits for it any more. */
  | { readonly type: 'drop' };

/** What the worker says to the page. */
export type FromEngine =
  | {
      readonly type: 'opened';
      readonly sheet: Sheet;
      /** Of an arrangement from parts: what each symptom shows there for certain. */
      readonly shows?: Readonly<Record<string, readonly Sighting[]>>;
    }
  /** What is proven of an arrangement from parts, now that more of it was tried. */
  | { readonly type: 'standing'; readonly composed: NonNullable<Sheet['composed']> }
  /** All that an arrangement’s faults show is worked out: its data, for another worker. */
  | { readonly type: 'whole'; readonly data: JobData }
  | { readonly type: 'drawn'; readonly svg: string }
  | { readonly type: 'failed'; readonly reason: string }
  | { readonly type: 'found'; readonly number: number; readonly findings: Findings }
  | { readonly type: 'next'; readonly number: number; readonly next: NextTest | null }
  | { readonly type: 'due'; readonly asked: readonly Asked[]; readonly due: readonly Due[] }
  | { readonly type: 'shown'; readonly said: string; readonly modes: readonly string[] }
  | {
      readonly type: 'path';
      readonly key: string;
      readonly path: FoundPath | null;
    };
