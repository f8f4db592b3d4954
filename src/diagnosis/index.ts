/** From a circuit to the order of its tests: the door to this room. */
export { type Answer, answerOf, readingOf, SEQUENCE_INSTRUMENT } from './answers.ts';
export { branchesOn, type Complaint, complaintsOf } from './complaints.ts';
export {
  halvingSequence,
  type Sequence,
  type SequenceBranch,
  type SequenceEnd,
  type SequenceTest,
} from './halving.ts';
export { type Suspect, suspectsOf } from './suspects.ts';
