import type { Beside, Comparison } from './compare.ts';

/** Where a side comes from: the address of its data, or a specification. */
export type SideSource = { readonly address: string } | { readonly specification: string };

/** What the page asks of the worker; what is asked later takes the place of what was before. */
export interface ToComparing {
  readonly number: number;
  readonly a: SideSource;
  readonly b: SideSource;
  /** Address of the parts. */
  readonly parts: string;
}

/** What the worker answers. */
export type FromComparing =
  | {
      readonly type: 'compared';
      readonly number: number;
      readonly comparison: Comparison;
      /** What is proven of a side from parts; empty of an entry. */
      readonly standing: readonly [string, string];
      readonly wrong: readonly [readonly string[], readonly string[]];
    }
  /** The first act after one complaint that both can show. */
  | { readonly type: 'first'; readonly number: number; readonly act: Beside }
  | { readonly type: 'done'; readonly number: number }
  | { readonly type: 'failed'; readonly number: number; readonly reason: string };
