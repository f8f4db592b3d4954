/** What next: from what may be the case, and where one stands, to the test to make: the door to this room. */
export { type ChanceStep, chanceOrder } from './comes-and-goes.ts';
export {
  type Beginning,
  isSteadyLook,
  type SequenceProblem,
  type Suspect,
  sequenceProblem,
} from './problem.ts';
export { type Proof, proofOf, type Shown } from './proof.ts';
