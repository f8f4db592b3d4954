import type { ColourCode } from '../../published/index.ts';
import type { EndIndex } from '../rewire.ts';

/** One core at the item: where it was, where it goes. Points are ITEM.terminal. */
export interface CoreStep {
  readonly cable: string;
  readonly colour: ColourCode;
  /** The end at the item. */
  readonly end: EndIndex;
  /** Its other end. */
  readonly far: string;
  /** Terminal of the old device; null for a core that was not used there. */
  readonly was: string | null;
  /** Terminal of the new device; null: a terminal of its own, at both ends. */
  readonly now: string | null;
  /** kept: a core that was used; spare: one that lay spare; new: one of a new cable. */
  readonly core: 'kept' | 'spare' | 'new';
  /** Marking its ends need; null where its colour says enough. */
  readonly sleeve: ColourCode | null;
}

/** One wire link at the item. */
export interface LinkStep {
  /** Terminals of the new device; of the old one where a link is not put back. */
  readonly between: readonly [string, string];
  /** stays: delivered with it and wanted; take out: delivered and not wanted; add: wanted and
   * not delivered; not put back: it was there, and has no work now. */
  readonly act: 'stays' | 'take out' | 'add' | 'not put back';
}

/** A cable that has to be run, in place of one or beside it. */
export interface NewCable {
  readonly cable: string;
  /** Cable it takes the place of; null where it is run beside what is there. */
  readonly inPlaceOf: string | null;
  readonly from: string;
  readonly cores: readonly ColourCode[];
  readonly spare: readonly ColourCode[];
  readonly size: number;
  readonly length: number;
}
