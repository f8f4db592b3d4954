import type { System } from '../../schemas/index.ts';
import type { Simulation } from '../circuit/index.ts';
import { differences, isAsExpected, type Slip, simulationWith, slipsOf } from './slips.ts';
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
 * item exchanged, or one core in another of its terminals; of several the likeliest slip. Where
 * no single one does, two exchanges, of which each makes more of them hold. Null where those do
 * not either.
 */
export const nearestWiring = (simulation: Simulation): WiringChange | null =>
  oneSlip(simulation) ?? twoSlips(simulation);

/** First exchanges that a second one is looked for beside. */
const TRIED = 6;

function twoSlips(simulation: Simulation): WiringChange | null {
  const before = differences(simulation);
  const promising = slipsOf(simulation)
    .filter(isLikely)
    .flatMap((slip) => {
      const then = simulationWith(simulation, slip);
      const left = then ? differences(then) : before;
      return then && left < before ? [{ slip, then, left }] : [];
    })
    .toSorted((a, b) => a.left - b.left)
    .slice(0, TRIED);
  for (const { slip, then } of promising)
    for (const second of slipsOf(then).filter(isLikely)) {
      const last = simulationWith(then, second);
      if (last && isAsExpected(last))
        return {
          words: `${slip.words}, and ${second.words}`,
          others: [],
          path: slip.path,
          system: second.system,
        };
    }
  return null;
}

/** Two cores of one cable, or of alike devices, in each other's place. */
const isLikely = ({ rank, ofTwins }: Slip) => rank === 0 || ofTwins;

function oneSlip(simulation: Simulation): WiringChange | null {
  for (const [, alike] of [...Map.groupBy(slipsOf(simulation), ({ rank }) => rank)].sort(
    ([a], [b]) => a - b,
  )) {
    const [first, ...others] = alike
      .filter((slip) => {
        const then = simulationWith(simulation, slip);
        return then !== null && isAsExpected(then);
      })
      // Cores that look alike, of two devices that are alike, are the likeliest to be exchanged.
      .toSorted((a, b) => Number(b.ofTwins) - Number(a.ofTwins));
    if (first) {
      const { words, path, system } = first;
      return { words, path, system, others: others.map((other) => other.words) };
    }
  }
  return null;
}
