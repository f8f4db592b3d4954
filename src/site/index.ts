/** Where a hand and a probe get on a site, and what getting there does: the door to this room. */
export { type LeftOn, leftOn } from './left-on.ts';
export {
  changesCircuit,
  conductorOf,
  type Place,
  placeNamed,
  placeOfTerminal,
  placesOf,
  readInstead,
  readsAt,
} from './places.ts';
export {
  LINK_OHMS,
  linkedIn,
  networkIn,
  type Situation,
  settledAt,
  settledIn,
  situationIn,
  situationsOf,
} from './situations.ts';
export { isSteady, isSteadyWhileSound } from './steady.ts';
export { isAtUnvented, isUnvented } from './unvented.ts';
