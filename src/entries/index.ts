/** From a content folder to valid entries, or every problem in it: the door to this room. */
export { CATALOGUE, type Explanation, type ProblemCode } from './catalogue.ts';
export {
  type Checked,
  type CheckOptions,
  calendarDay,
  checkEntries,
  provingProblems,
  yearAfter,
} from './check.ts';
export { colourNamed } from './colour-words.ts';
export { type Effects, fileSystem, type Listed } from './effects.ts';
export { type Computed, expectationProblems } from './expectations.ts';
export { type Conflict, exceptionsText } from './firm-conflicts.ts';
export {
  entryAt,
  FIRM_CONTENT,
  type FirmLayer,
  firmMarks,
  type Hidden,
} from './firm-layer.ts';
export { formerNamesIn, isOfFormerName } from './former-names.ts';
export { codeFrame } from './frame.ts';
export { frontmatterOf } from './frontmatter.ts';
export {
  entriesByKind,
  entryKey,
  type JsonSchema,
  jsonSchemaOf,
  KINDS,
  type Kind,
  withFeatures,
} from './kinds.ts';
export { type Loaded, loadEntries } from './load.ts';
export { editDistance, nearest } from './nearest.ts';
export {
  among,
  type Details,
  formatProblem,
  formatProblems,
  inOrder,
  makeProblem,
} from './problem.ts';
export { type Report, reportFor } from './report.ts';
export { isSamePerson, isUnreviewed, type Reviewable, stale } from './review-dates.ts';
export { type Draft, READ_PARTS, type Read, type ReadPart, readOf, sealOf } from './seal.ts';
export { jsonSchemaOfSettings, readSettings, type Settings } from './settings.ts';
export { insideSmartQuotes } from './smart-quotes.ts';
export { wholeFile } from './source.ts';
export type {
  Entries,
  Entry,
  Origin,
  Path,
  Place,
  Places,
  Position,
  Problem,
  SourceText,
} from './types.ts';
export { type Expectation, type Unnoticed, unnoticedIn } from './unnoticed.ts';
