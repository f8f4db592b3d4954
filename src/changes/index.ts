/** What changed between two builds, as circuits and in an engineer's words: the door to this room. */
export {
  Comparison,
  compareBuilds,
  compareSystems,
  isSame,
  type SystemChanges,
} from './compare.ts';
export { type Change, SystemFacts } from './facts.ts';
export { comparisonText } from './text.ts';
