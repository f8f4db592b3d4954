/** From an old device to a new one by function: the door to this room. */
export { type After, applyPlan, type ConditionMap, mapConditions } from './apply.ts';
export { candidatesFor } from './candidates.ts';
export { type Comparison, combinationsOf, compare, type Difference } from './compare.ts';
export { allParts, partsOf, terminalsFor } from './parts.ts';
export { type Plan, planReplacement } from './plan.ts';
export { type ProvingStep, provingSteps } from './proving.ts';
export { type ChangedReading, changedReadings } from './readings.ts';
export type { CoreStep, LinkStep, NewCable } from './steps.ts';
export {
  type LinkProof,
  type NewCondition,
  type Replacement,
  studyPlan,
  studyReplacement,
  type Verdict,
} from './study.ts';
export {
  conditionsText,
  coreAct,
  coreName,
  coresText,
  deadTestsOf,
  differenceText,
  linkProofText,
  linksText,
  linkText,
  newCableText,
  newConditionText,
  notesOf,
  VERDICT_WORDS,
  verdictText,
} from './words.ts';
