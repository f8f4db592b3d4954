/** The order of tests from each complaint of a system: the door to this room. */
export {
  ANYTHING,
  classesByLooks,
  NOTHING_SEEN,
  OTHER_SEEN,
  type Start,
  soundWeight,
  startsOf,
} from './complaint.ts';
export {
  type Beginning,
  type Open,
  type SequenceProblem,
  sequenceProblem,
} from './problem.ts';
export {
  type Next,
  type SequenceEnd,
  type Step,
  type StepAnswer,
  savingOf,
  type TestSequence,
  testSequence,
} from './sequence.ts';
