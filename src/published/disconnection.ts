import { type Amps, type Ohms, ohms } from '../units/index.ts';
import { TYPE_B_TRIP_MULTIPLE } from './protection.ts';
import { derived, fromMemory, type Source, seen } from './source.ts';
import { NOMINAL_VOLTS } from './supply.ts';

/** Longest times, in seconds, that the loop impedance tables are made for. */
export const DISCONNECTION_SECONDS = [0.4, 5] as const;
export type DisconnectionSeconds = (typeof DISCONNECTION_SECONDS)[number];
export const DISCONNECTION_SOURCE: Source = fromMemory(
  'BS 7671 411.3.2: final circuits up to 32 A in TN systems disconnect in 0.4 s',
);

/** Share of nominal voltage reckoned with where a fault current must be large enough. */
export const VOLTAGE_FACTOR_MIN = 0.95;

/** Greatest loop impedance at which a BS 1362 fuse link clears in time, by its rating, A. */
export const FUSE_LOOP_OHMS: Readonly<
  Record<number, Readonly<Record<DisconnectionSeconds, Ohms>>>
> = {
  3: { 0.4: ohms(15.6), 5: ohms(22) },
  13: { 0.4: ohms(2.3), 5: ohms(3.64) },
};
export const FUSE_LOOP_SOURCE: Source = fromMemory('BS 7671 Tables 41.2 and 41.4, Cmin 0.95');

/** Greatest loop impedance for the instantaneous trip of a type B circuit-breaker, Ω. */
export const breakerLoopOhms = (rated: Amps): Ohms =>
  ohms((VOLTAGE_FACTOR_MIN * NOMINAL_VOLTS) / (TYPE_B_TRIP_MULTIPLE * rated));
export const BREAKER_LOOP_SOURCE: Source = derived(
  '0.95 × 230 V ÷ (5 × In); EN 60898 type B trips at 5 In within 0.4 s',
);

/** A point of a fuse link's time–current zone: at this current it breaks within these times. */
export interface FuseZone {
  readonly amps: number;
  /** Shortest time the standard allows, s; null where it sets none. */
  readonly least: number | null;
  /** Longest time the standard allows, s. */
  readonly most: number;
}

/** Time–current zones of BS 1362 fuse links by rating, A, in order of current. */
export const FUSE_ZONES: Readonly<Record<number, readonly FuseZone[]>> = {
  3: [
    { amps: 9, least: 0.02, most: 80 },
    { amps: 20, least: null, most: 0.1 },
    { amps: 30, least: null, most: 0.03 },
  ],
  13: [
    { amps: 30, least: 1, most: 400 },
    { amps: 50, least: 0.1, most: 20 },
    { amps: 100, least: 0.01, most: 0.2 },
  ],
};
export const FUSE_ZONE_SOURCE: Source = seen('BS 1362: time–current zones');

/**
 * Longest time in which a BS 1362 fuse link breaks a current, seconds: that of the largest
 * current in its zones which the given one reaches. Null below the first, and for a rating
 * whose zones are not given here.
 */
export function breaksWithin(rated: Amps, current: Amps): number | null {
  const reached = FUSE_ZONES[rated]?.findLast((zone) => zone.amps <= current);
  return reached?.most ?? null;
}
