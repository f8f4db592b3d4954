/** A circuit as it is found: what differs, what it does, what is dangerous. */
export { type Difference, differencesOf } from './differences.ts';
export { HAZARD_KINDS, type Hazard, type HazardKind } from './hazard.ts';
export { hazardsOf } from './hazards.ts';
export {
  AS_ENTRY,
  type AsFound,
  type CoreName,
  type FoundEnd,
  foundNetwork,
  foundSystem,
} from './state.ts';
