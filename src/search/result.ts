import type { Kind } from './names.ts';
import type { Segment } from './text.ts';

/** One line of a list of results. */
export interface Result {
  readonly title: string;
  readonly kind: Kind;
  /** Address from the site's base. */
  readonly url: string;
  /** What it belongs to: a terminal's device or system. */
  readonly of?: string;
  /** Why it was found: a line about it, or the text that holds the words. */
  readonly excerpt: readonly Segment[];
}
