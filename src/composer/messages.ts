import type { DrawingData } from '../components/diagram/data.ts';
import type { Agreed, Answered, Standing } from './engine.ts';
import type { Answers } from './questions.ts';
import type { Offer, ReplacingView } from './replacing.ts';
import type { Unsound } from './soundness.ts';
import type { View } from './view.ts';

/** What the page asks of the worker. What is asked later takes the place of what was before. */
export type ToComposer =
  | { readonly type: 'open'; readonly address: string }
  | {
      readonly type: 'stand';
      readonly number: number;
      readonly answers: Answers;
      readonly at?: string;
    }
  /** @property address the part of the page’s address behind its `#` */
  | { readonly type: 'work'; readonly number: number; readonly address: string }
  /** What can take the place of an item, of the arrangement that was worked out last; or one that does. */
  | { readonly type: 'offer'; readonly of: number }
  | {
      readonly type: 'replace';
      readonly of: number;
      readonly item: string;
      readonly device: string;
    };

/** What the worker answers. */
export type FromComposer =
  | { readonly type: 'opened' }
  | { readonly type: 'failed'; readonly reason: string }
  | { readonly type: 'standing'; readonly number: number; readonly standing: Standing }
  | {
      readonly type: 'judged';
      readonly number: number;
      /** null where the answers before the question lead to nothing in order already. */
      readonly option: string | null;
      readonly unsound: Unsound | null;
    }
  | {
      readonly type: 'wrong';
      readonly number: number;
      readonly wrong: string;
      readonly allowed: readonly string[];
    }
  | {
      readonly type: 'worked';
      readonly number: number;
      readonly view: View;
      /** null where no questions ask for it. */
      readonly answers: Answers | null;
      readonly answered: readonly Answered[];
    }
  | {
      readonly type: 'drawn';
      readonly number: number;
      readonly variant: 'narrow' | 'landscape';
      readonly svg: string;
    }
  | { readonly type: 'told'; readonly number: number; readonly data: DrawingData }
  | { readonly type: 'offered'; readonly number: number; readonly offers: readonly Offer[] }
  | {
      readonly type: 'replaced';
      readonly number: number;
      readonly item: string;
      readonly device: string;
      readonly sheet: ReplacingView;
    }
  /** Done once `isDone`; stopped by its time where less was tried than there is. */
  | {
      readonly type: 'agreeing';
      readonly number: number;
      readonly agreed: Agreed;
      readonly isDone: boolean;
    };
