/**
 * What changed between two states of a reference, as circuits and in all that a reader acts on,
 * with how grave each change is: the door to this room.
 */
export { Comparison, compareBuilds, compareSystems } from './compare.ts';
export { EntriesFacts } from './entry-facts.ts';
export { SystemFacts } from './facts.ts';
export { ChangeLine } from './line.ts';
export { KINDS, RANK_NAMES, RANKS, type Rank } from './ranks.ts';
export { changesText, lineWords } from './text.ts';
export { compareReferences, type ReferenceFacts } from './whole.ts';
