/** From a circuit to the order of its tests: the door to this room. */
export { type Answer, instrumentFor, liveAnswer } from './answers.ts';
export {
  coresOf,
  FAMILIES,
  FAMILY_SHARES,
  type Family,
  type FamilyShares,
  type Fault,
  familiesIn,
  faultsOf,
  HISTORIES,
  HISTORY_WORDS,
  type History,
  type Origin,
  OUR_SHARES,
  SHARE_SOURCES,
} from './faults/index.ts';
export type { NoFault, Telling } from './no-fault.ts';
export { blownInAll, type Sighting, seenInAll, seenWith, seenWithout } from './seen.ts';
export { type Signature, type Signatures, signaturesOf } from './signatures.ts';
export { type CauseGroup, causesIn, type SymptomSystem, type SystemCauses } from './symptoms.ts';
export {
  ACT_MINUTES,
  answerIn,
  type Test,
  type TestAnswer,
  testsOf,
} from './tests/index.ts';
