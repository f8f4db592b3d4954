/** Cables and protection of a system, computed: the door to this part of the room. */
import type { Simulation } from '../../circuit/index.ts';
import { type Continuity, continuities } from './continuity.ts';
import { type VoltDrop, voltDrops } from './drops.ts';
import { type EarthFault, earthFaults } from './earth-faults.ts';
import { type FuseLoad, fuseLoads } from './fuses.ts';
import { type CableLoad, cableSchedule } from './schedule.ts';
import { waysByMode } from './ways.ts';

export type { Continuity, Resistances } from './continuity.ts';
export { type CoreLoad, type Marking, markingOf, NO_AMPS } from './core-loads.ts';
export type { VoltDrop } from './drops.ts';
export type { EarthFault } from './earth-faults.ts';
export type { FuseLoad } from './fuses.ts';
export type { Carries } from './nets.ts';
export { limiterBehind, type ProtectiveDevice, protectionOf } from './protection.ts';
export { ratingOf } from './ratings.ts';
export { type CableLoad, cableSchedule } from './schedule.ts';

/** All that is computed of a system's cables and of what protects them. */
export interface CablesAndProtection {
  readonly cables: readonly CableLoad[];
  readonly fuses: readonly FuseLoad[];
  readonly faults: readonly EarthFault[];
  readonly drops: readonly VoltDrop[];
  readonly continuity: readonly Continuity[];
}

/** Works out cables and protection of a simulated system. */
export function cablesAndProtection(simulation: Simulation): CablesAndProtection {
  const modes = waysByMode(simulation);
  return {
    cables: cableSchedule(simulation),
    fuses: fuseLoads(simulation),
    faults: earthFaults(simulation, modes),
    drops: voltDrops(simulation, modes),
    continuity: continuities(simulation.network, modes),
  };
}
