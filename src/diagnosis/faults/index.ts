import type { Simulation } from '../../circuit/index.ts';
import { connectionFaults } from './connections.ts';
import type { Fault } from './fault.ts';
import { wiringMistakes } from './mistakes.ts';
import { partFaults } from './parts.ts';

export { compose, type Edit, editedCircuit } from './edit.ts';
export type { Fault, Origin } from './fault.ts';
export { nodesOf } from './reach.ts';
export { WEIGHT_SOURCES, WEIGHTS, type Weight, type WeightClass } from './weights.ts';

/**
 * Every single fault of a system, generated: part failures, connections come apart, wiring
 * mistakes. Two that come to the same change are listed once, the first.
 */
export function faultsOf(simulation: Simulation): Fault[] {
  const { network } = simulation;
  const faults = [
    ...partFaults(network),
    ...connectionFaults(network),
    ...wiringMistakes(simulation),
  ];
  return [...new Map(faults.map((fault) => [fault.id, fault])).values()];
}
