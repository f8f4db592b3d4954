import type { System } from '../../schemas/index.ts';
import type { Simulation } from '../circuit/index.ts';
import { isAsExpected, simulationWith, slipsOf } from './slips.ts';
import type { Path } from './types.ts';

/** One change of wiring after which a system does what its author expects. */
export interface WiringChange {
  /** As an instruction: `exchange black and grey of the thermostat cable W7 at the cylinder stat B2`. */
  readonly words: string;
  /** Other changes as likely that do as well, as instructions. */
  readonly others: readonly string[];
  /** Path of the first of its cores in the entry. */
  readonly path: Path;
  /** How the system is wired then. */
  readonly system: System;
}

/**
 * The smallest change of wiring that makes all expectations of a system hold: two cores of one
 * item exchanged, or one core in another of its terminals; of several the likeliest slip. Null
 * where no single one does.
 */
export function nearestWiring(simulation: Simulation): WiringChange | null {
  for (const [, alike] of [...Map.groupBy(slipsOf(simulation), ({ rank }) => rank)].sort(
    ([a], [b]) => a - b,
  )) {
    const [first, ...others] = alike.filter((slip) => {
      const then = simulationWith(simulation, slip);
      return then !== null && isAsExpected(then);
    });
    if (first) {
      const { words, path, system } = first;
      return { words, path, system, others: others.map((other) => other.words) };
    }
  }
  return null;
}
