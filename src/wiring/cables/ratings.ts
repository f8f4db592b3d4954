import {
  type CableRating,
  FLEX_AMBIENT_FACTORS,
  FLEX_RATINGS,
  FLEX_SOURCE,
  SINGLE_CORE_RATINGS,
  SINGLE_CORE_SOURCE,
  type Source,
  TWIN_AND_EARTH_RATINGS,
  TWIN_AND_EARTH_SOURCE,
} from '../../published/index.ts';
import { type Amps, type Celsius, celsius } from '../../units/index.ts';

type Table = readonly [Readonly<Record<number, CableRating>>, Source];

const TABLES: Readonly<Record<string, Table>> = {
  flex: [FLEX_RATINGS, FLEX_SOURCE],
  'fixed lead': [FLEX_RATINGS, FLEX_SOURCE],
  'twin and earth': [TWIN_AND_EARTH_RATINGS, TWIN_AND_EARTH_SOURCE],
  single: [SINGLE_CORE_RATINGS, SINGLE_CORE_SOURCE],
};

/** Capacity and volt drop of a size and kind of cable, with the table they come from. */
export function ratingOf(
  kind: string,
  size: number,
): { rating: CableRating; source: Source } | null {
  const found = TABLES[kind];
  const rating = found?.[0][size];
  return found && rating ? { rating, source: found[1] } : null;
}

/**
 * Warmest place, °C, in which a 60 °C cord still carries a current; null where it carries it
 * in none, and for other kinds of cable.
 */
export function warmestPlace(kind: string, capacity: Amps, current: Amps): Celsius | null {
  if (kind !== 'flex' && kind !== 'fixed lead') return null;
  const warm = Object.entries(FLEX_AMBIENT_FACTORS)
    .filter(([, factor]) => capacity * factor >= current)
    .map(([temperature]) => Number(temperature));
  return warm.length > 0 ? celsius(Math.max(...warm)) : null;
}
