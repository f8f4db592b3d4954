import {
  INSTRUMENTS,
  type Instrument,
  type Reading,
  read,
  type Simulation,
} from '../circuit/index.ts';
import type { TestPair } from './test-pairs.ts';

/** Every test pair's reading in every mode on every voltage instrument. */
export interface ReadingsGrid {
  readonly pairs: readonly TestPair[];
  readonly modes: readonly string[];
  readonly instruments: readonly Instrument[];
  /**
   * What an instrument shows.
   * @throws RangeError for a pair, mode or instrument that is not in the grid.
   */
  at(pair: string, mode: string, instrument: Instrument['id']): Reading;
}

/** Works out the readings grid of a simulated system. */
export function readingsGrid(simulation: Simulation, pairs: readonly TestPair[]): ReadingsGrid {
  const modes = [...simulation.modes.keys()];
  const cells = new Map<string, Reading>();
  const key = (pair: string, mode: string, instrument: string) => `${pair}¦${mode}¦${instrument}`;
  for (const [mode, settled] of simulation.modes) {
    for (const { id, from, to } of pairs) {
      for (const instrument of INSTRUMENTS) {
        cells.set(key(id, mode, instrument.id), read(settled.solution, from, to, instrument));
      }
    }
  }
  return {
    pairs,
    modes,
    instruments: INSTRUMENTS,
    at(pair, mode, instrument) {
      const reading = cells.get(key(pair, mode, instrument));
      if (reading) return reading;
      throw new RangeError(
        `no reading of ${pair} in mode ${mode} on ${instrument}; pairs are ${pairs
          .map((p) => p.id)
          .join(', ')}; modes are ${modes.join(', ')}`,
      );
    },
  };
}
