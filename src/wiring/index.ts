/** What the wiring of a system says when it is read off the circuit: the door to this room. */
export { isBeyondControls } from './beyond-controls.ts';
export {
  type CableLoad,
  type CablesAndProtection,
  type Carries,
  type Continuity,
  type CoreLoad,
  cableSchedule,
  cablesAndProtection,
  type EarthFault,
  type FuseLoad,
  limiterBehind,
  type Marking,
  markingOf,
  NO_AMPS,
  type ProtectiveDevice,
  protectionOf,
  type Resistances,
  ratingOf,
  type VoltDrop,
} from './cables/index.ts';
export { extraLowCaution, extraLowPoints } from './extra-low.ts';
export { type Hop, type LivePath, livePathIn, livePaths } from './live-path.ts';
export { type ItemPoints, itemOf, mateOf, nameOf, pointsByItem } from './points.ts';
export { JOIN_OHMS, waysFrom } from './reach.ts';
export { type ReadingsGrid, readingsGrid } from './readings.ts';
export {
  type CoreEnd,
  coreEnds,
  type EndIndex,
  exchangeCoreEnds,
  looseCoreEnd,
  moveCoreEnd,
  pointAt,
  pointsOfCore,
} from './rewire.ts';
export {
  atItem,
  cableWords,
  corePair,
  coreWords,
  fuseWords,
  itemName,
  itemWords,
  outcomeText,
  pairWords,
  partWords,
  pointMark,
  pointWords,
  wayMark,
  wayWords,
} from './spoken.ts';
export { type Story, type StoryStep, storyOf } from './story.ts';
export {
  earthPairs,
  type PairKind,
  type TestPair,
  testPairs,
  testPairWords,
} from './test-pairs.ts';
export {
  againstFor,
  type CableRun,
  functionOfTerminal,
  type LinkRow,
  type WiringEnd,
  type WiringRow,
  type WiringTable,
  wiringTable,
} from './wiring-table.ts';
