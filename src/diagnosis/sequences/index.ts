/** The order of tests from each complaint of a system: the door to this room. */
export {
  ANYTHING,
  classesByLooks,
  isComplaint,
  NOTHING_SEEN,
  type Open,
  ORDERED_HISTORIES,
  OTHER_SEEN,
  type Start,
  soundWeight,
  startsOf,
} from './complaint.ts';
export { chanceOrderOf, orderOf } from './order.ts';
export {
  type Next,
  problemOf,
  type SequenceEnd,
  type SequenceFigures,
  type Step,
  type StepAnswer,
  savingOf,
  type TestSequence,
  testSequence,
} from './sequence.ts';
