import { type Amps, amps } from '../units/index.ts';
import type { ConductorSize } from './conductors.ts';
import { fromMemory, type Source, seen } from './source.ts';

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

/** Single-core cables, 70 °C, two loaded in conduit or trunking (method B), by size in mm². */
export const SINGLE_CORE_RATINGS: Readonly<Partial<Record<ConductorSize, CableRating>>> = {
  1: rating(13.5, 44),
  1.5: rating(17.5, 29),
  2.5: rating(24, 18),
  4: rating(32, 11),
};
export const SINGLE_CORE_SOURCE: Source = fromMemory('BS 7671 Tables 4D1A and 4D1B, method B');

/** Share of a 60 °C cord’s capacity left at an ambient temperature, °C. */
export const FLEX_AMBIENT_FACTORS: Readonly<Record<number, number>> = {
  30: 1,
  35: 0.91,
  40: 0.82,
  45: 0.71,
  50: 0.58,
  55: 0.41,
};
export const FLEX_AMBIENT_SOURCE: Source = seen(
  'BS 7671 Table 4F3A, ambient factors of 60 °C cords',
);
