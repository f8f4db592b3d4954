/** What changed between two builds, as circuits and in an engineer's words: the door to this room. */
export { type Comparison, compareBuilds, compareSystems, type SystemChanges } from './compare.ts';
export { type Change, SystemFacts } from './facts.ts';
export { comparisonText } from './text.ts';
