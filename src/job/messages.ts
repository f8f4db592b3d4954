import type { Request } from './engine.ts';
import type { Asked, Due, Findings, FoundPath, NextTest } from './findings.ts';
import type { Sheet } from './sheet.ts';

/** What a page says to the engine's worker. */
export type ToEngine =
  /** Load a system's data from an absolute address. */
  | { readonly type: 'open'; readonly address: string }
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
  /** Stop the long work under way: nobody waits for it any more. */
  | { readonly type: 'drop' };

/** What the worker says to the page. */
export type FromEngine =
  | { readonly type: 'opened'; readonly sheet: Sheet }
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
