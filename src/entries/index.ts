/** From a content folder to valid entries, or every problem in it: the door to this room. */
export { CATALOGUE, type Explanation, type ProblemCode } from './catalogue.ts';
export { type Checked, type CheckOptions, checkEntries, provingProblems } from './check.ts';
export { type Effects, fileSystem, type Listed } from './effects.ts';
export { type Computed, expectationProblems } from './expectations.ts';
export { codeFrame } from './frame.ts';
export { type JsonSchema, jsonSchemaOf, KINDS, type Kind } from './kinds.ts';
export { type Loaded, loadEntries } from './load.ts';
export { editDistance, nearest } from './nearest.ts';
export { type Details, formatProblem, formatProblems, inOrder, makeProblem } from './problem.ts';
export { type Report, reportFor } from './report.ts';
export type {
  Entries,
  Entry,
  Path,
  Place,
  Places,
  Position,
  Problem,
  SourceText,
} from './types.ts';
