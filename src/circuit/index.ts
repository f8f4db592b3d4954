/** From a system's wiring to what every instrument shows: the door to this room. */
export { buildNetwork, isLooseEnd, presenceOf, rewireNetwork } from './build.ts';
export { type Change, changeNetwork, openElements } from './change.ts';
export { type Complex, complex, magnitude } from './complex.ts';
export {
  BLOWN_OHMS,
  BREAKER_OHMS,
  CLOSED_CONTACT_OHMS,
  FUSE_OHMS,
  OPEN_CONTACT_OHMS,
} from './constants.ts';
export {
  type Factor,
  factorise,
  gather,
  type Potentials,
  solveFor,
  solveSources,
} from './factor.ts';
export { admittance, type Parts, partsOf } from './impedance.ts';
export { burden, INSTRUMENTS, type Instrument } from './instruments.ts';
export { netlist } from './netlist.ts';
export {
  type Branch,
  BranchIndex,
  type BuildOptions,
  type CircuitNode,
  type ConductorBranch,
  type ElementBranch,
  type FaultyBranch,
  type Item,
  type Network,
  nodeOf,
  type StrangePathBranch,
  type StrayBranch,
  type SupplyBranch,
  type WireLinkBranch,
} from './network.ts';
export { breakingAmps } from './prepared.ts';
export {
  CLASS_LIMITS,
  classOf,
  EXTRA_LOW_LEAST,
  isExtraLow,
  type Reading,
  type ReadingClass,
  read,
  readClass,
  readVolts,
  resistanceBetween,
} from './reading.ts';
export { holds } from './rules.ts';
export { type Rest, settle, settling } from './settle.ts';
export {
  alter,
  type Seen,
  type Settled,
  type Simulation,
  settleMode,
  simulate,
  simulateAsFound,
} from './simulate.ts';
export {
  branchCurrent,
  effectiveAmps,
  effectiveVolts,
  impedanceBetween,
  potential,
  type Solution,
  solve,
  voltage,
} from './solve.ts';
export type { Spectrum } from './spectrum.ts';
export { atRest, conditionsOf, type Memory, type State } from './state.ts';
export { planElimination, REFERENCE, type Topology } from './topology.ts';
