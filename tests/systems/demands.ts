import {
  INSTRUMENTS,
  type Instrument,
  type Memory,
  type Network,
  type ReadingClass,
  read,
  type Settled,
  settleMode,
} from '../../src/circuit/index.ts';
import { loadSystem } from './load.ts';

export type Conditions = Readonly<Record<string, boolean>>;

const instrument = (id: string): Instrument => INSTRUMENTS.find((known) => known.id === id)!;
export const TESTER = instrument('tester');
/** Its load brings an induced voltage down to nothing, so that what is left is fed. */
export const LOW = instrument('low-impedance');

/** At rest under some conditions, from new or from an earlier state. */
export const under = (network: Network, conditions: Conditions, memory?: Memory): Settled =>
  settleMode(network, 'as tested', conditions, memory);
/** Whether a person sees an outcome, `ITEM.outcome`. */
export const seen = (settled: Settled, outcome: string) => settled.outcomes.get(outcome);
/** Class of the reading from a point to the neutral bar. */
export const classAt = (settled: Settled, point: string, by = TESTER): ReadingClass =>
  read(settled.solution, point, 'X1.N', by).class;
/** The tester's reading from a point to the neutral bar, volts. */
export const voltsAt = (settled: Settled, point: string): number =>
  read(settled.solution, point, 'X1.N', TESTER).ac;

/** Every way of setting the conditions named. */
const allOf = (...names: string[]): Conditions[] =>
  names.reduce<Conditions[]>(
    (made, name) =>
      made.flatMap((so) => [
        { ...so, [name]: false },
        { ...so, [name]: true },
      ]),
    [{}],
  );

/** Every state of programmer and thermostats. */
export const DEMANDS = allOf('K1.heating on', 'B1.calling', 'K1.hot water on', 'B2.calling');
export const wantsHeating = (c: Conditions) => Boolean(c['K1.heating on'] && c['B1.calling']);
export const wantsHotWater = (c: Conditions) => Boolean(c['K1.hot water on'] && c['B2.calling']);

/** A shipped system with some cores, by cable, cut back at both ends. */
export function withoutCores(id: string, cut: Readonly<Record<string, 'OG' | 'GY'>>): Network {
  return loadSystem(id, {}, (system) => {
    for (const [reference, colour] of Object.entries(cut)) {
      const cable = system.cables[reference]!;
      delete cable.cores[colour];
      cable.spare.push(colour);
    }
    return system;
  });
}
