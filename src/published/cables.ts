import { type Amps, amps, type Ohms, ohms, type Volts, volts } from '../units/index.ts';
import type { ConductorSize } from './conductors.ts';
import { TYPE_B_TRIP_MULTIPLE } from './protection.ts';
import { derived, fromMemory, type Source, seen } from './source.ts';
import { NOMINAL_VOLTS, VOLT_DROP_LIMIT } from './supply.ts';

/** What a table says of one size of cable. */
export interface CableRating {
  /** Current-carrying capacity, A. */
  readonly amps: Amps;
  /** Volt drop per ampere and metre, line and return together, mV. */
  readonly millivolts: number;
}

const rating = (a: number, millivolts: number): CableRating => ({ amps: amps(a), millivolts });

/** Flexible cords, 60 °C thermoplastic, single phase, by size in mm². */
export const FLEX_RATINGS: Readonly<Partial<Record<ConductorSize, CableRating>>> = {
  0.5: rating(3, 93),
  0.75: rating(6, 62),
  1: rating(10, 46),
  1.5: rating(16, 32),
  2.5: rating(25, 19),
  4: rating(32, 12),
};
export const FLEX_SOURCE: Source = seen('BS 7671 Tables 4F3A and 4F3B, 60 °C, single phase');

/** Flat twin and earth, clipped direct (method C), 70 °C, by size in mm². */
export const TWIN_AND_EARTH_RATINGS: Readonly<Partial<Record<ConductorSize, CableRating>>> = {
  1: rating(16, 44),
  1.5: rating(20, 29),
  2.5: rating(27, 18),
  4: rating(37, 11),
};
export const TWIN_AND_EARTH_SOURCE: Source = seen(
  'BS 7671 Table 4D5, method C; volt drop seen as the identical column of Table 4D1B',
);

/** Share of a 60 °C cord’s capacity left at an ambient temperature, °C. */
export const FLEX_AMBIENT_FACTORS: Readonly<Record<number, number>> = {
  30: 1,
  35: 0.91,
  40: 0.82,
  45: 0.71,
  50: 0.58,
  55: 0.41,
};

/** Greatest loop impedance for disconnection in 0.4 s of a BS 1362 fuse, by rating. */
export const FUSE_LOOP_OHMS: Readonly<Record<number, Ohms>> = { 3: ohms(15.6), 13: ohms(2.3) };
export const FUSE_LOOP_SOURCE: Source = fromMemory('BS 7671 Table 41.2, Cmin 0.95, 0.4 s');

/** Share of nominal voltage reckoned with where a fault current must be large enough. */
export const VOLTAGE_FACTOR_MIN = 0.95;

/** Greatest loop impedance for the instantaneous trip of a type B circuit-breaker, Ω. */
export const breakerLoopOhms = (rated: Amps): Ohms =>
  ohms((VOLTAGE_FACTOR_MIN * NOMINAL_VOLTS) / (TYPE_B_TRIP_MULTIPLE * rated));
export const BREAKER_LOOP_SOURCE: Source = derived(
  '0.95 × 230 V ÷ (5 × In); EN 60898 type B trips at 5 In within 0.4 s',
);

/** Greatest volt drop from the origin to current-using equipment. */
export const EQUIPMENT_VOLT_DROP: { readonly volts: Volts; readonly source: Source } = {
  volts: volts(VOLT_DROP_LIMIT.volts),
  source: VOLT_DROP_LIMIT.source,
};
