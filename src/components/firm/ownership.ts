import type { Origin } from '../../entries/index.ts';

/** Whose an entry is, in a sentence without its full stop, by the firm's name. */
export const OWNERSHIP: Readonly<Record<Exclude<Origin, 'reference'>, (firm: string) => string>> = {
  added: (firm) => `Written by ${firm}`,
  replaced: (firm) => `Written by ${firm}, in place of the reference’s own`,
  extended: (firm) => `The reference’s own, with additions by ${firm}`,
};

/** The same in a word or two, for a table. */
export const OWNERSHIP_WORDS: Readonly<Record<Origin, string>> = {
  reference: 'The reference’s',
  added: 'Added',
  replaced: 'Replaced',
  extended: 'Added to',
};
