/**
 * From what an engineer found, in any order, to what is wrong: the door to this room.
 *
 * A page makes a `Model` of a system once, from its simulation and its compact signatures,
 * opens a case, and adds what was observed. Cases are values: every act gives another case,
 * and the old one stays as it was. `rank`, `next` and `verdict` ask a case; `reasons` puts an
 * explanation into plain words. A worker keeps the model; a case is saved as its list of
 * observations, which are plain data.
 */
export {
  type Case,
  next,
  observe,
  openCase,
  type Proposal,
  rank,
  ranking,
  reasons,
  remove,
  standAt,
  undo,
  verdict,
} from './case.ts';
export { ANSWER_CODES, ANSWERS, rowText } from './codes.ts';
export {
  type CompactRows,
  type CompactSignatures,
  compactRows,
  compactSignatures,
  signaturesFrom,
} from './compact.ts';
export type { Reasons } from './explain.ts';
export { GrowingSignatures } from './growing.ts';
export { both, type Hypothesis, SOUND } from './hypothesis.ts';
export { misreadingOf } from './likelihood.ts';
export { listedFor, Model } from './model.ts';
export { type Choice, doubtedTests } from './next.ts';
export {
  answerWord,
  type DeadReading,
  type FuseFound,
  type LiveReading,
  type Look,
  type Observation,
  type TypedVolts,
  typedFigure,
} from './observation.ts';
export type { Order, OrderTree } from './order.ts';
export {
  type Explanation,
  isTripAlone,
  needsPairs,
  posterior,
  type RankedRepair,
  type Ranking,
} from './posterior.ts';
export { BEYOND_TESTS, PRIOR, UNEXPLAINED_TRIP } from './priors.ts';
export {
  alphabetOf,
  askedBy,
  problemWith,
  type Question,
  questionKey,
  questionOf,
} from './question.ts';
export type { Verdict } from './verdict.ts';
