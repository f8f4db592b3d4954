/** From parts to a whole system with what must happen in it: the door to this room. */
export { addressOf, type ReadAddress, readAddress } from './address.ts';
export { needsPump } from './chains.ts';
export { compose } from './compose.ts';
export { KINDS, type MustBeSeen, mustBeSeen } from './demand.ts';
export { circuitMark, devicesOf } from './mark.ts';
export { type Holds, toSet } from './rules.ts';
export {
  type Catalogue,
  type Choice,
  type Composed,
  type Demand,
  REFUSALS,
  Refusal,
  type RefusalReason,
  type Roles,
  type Service,
  type Specification,
} from './types.ts';
