import { EXTRA_LOW_LIMITS, STATUTORY_LIMITS, VOLT_DROP_LIMIT } from '../published/index.ts';
import { type Ohms, ohms, type Volts, volts } from '../units/index.ts';
import { add, divide, magnitude, multiply } from './complex.ts';
import { burden, type Instrument } from './instruments.ts';
import { nodeOf } from './network.ts';
import { impedanceBetween, type Solution, voltage } from './solve.ts';
import type { Spectrum } from './spectrum.ts';

/**
 * What a reading tells.
 * live: between the least voltage a sound installation delivers and the supply's upper limit;
 * dead: no more than a sound neutral may stand from earth;
 * between: neither, so induced, fed back through a load, or a lost neutral;
 * high: above the supply's upper limit.
 */
export type ReadingClass = 'live' | 'dead' | 'between' | 'high';

/** Limits of the classes, volts AC, from the supply's limits and the greatest volt drop. */
export const CLASS_LIMITS: {
  readonly dead: Volts;
  readonly live: Volts;
  readonly high: Volts;
} = {
  dead: VOLT_DROP_LIMIT.volts,
  live: volts(STATUTORY_LIMITS.low - VOLT_DROP_LIMIT.volts),
  high: STATUTORY_LIMITS.high,
};

/** Class of an alternating voltage, volts RMS. */
export function classOf(ac: Volts): ReadingClass {
  if (ac <= CLASS_LIMITS.dead) return 'dead';
  if (ac < CLASS_LIMITS.live) return 'between';
  return ac <= CLASS_LIMITS.high ? 'live' : 'high';
}

/** What an instrument shows between two points. */
export interface Reading {
  /** Alternating part, volts RMS. */
  readonly ac: Volts;
  /** Direct part, volts, first point positive. */
  readonly dc: Volts;
  /** Class of the alternating part. */
  readonly class: ReadingClass;
}

/**
 * What an instrument shows when it is laid between two points of a solved network.
 * Its burden is put in series with the network's own impedance between the points.
 * @param from,to point ids, as in `A1.L`.
 * @throws RangeError for a point the network does not have.
 */
export function read(
  solution: Solution,
  from: string,
  to: string,
  instrument: Pick<Instrument, 'ohms' | 'farads'>,
): Reading {
  const a = nodeOf(solution.network, from).index;
  const b = nodeOf(solution.network, to).index;
  const ac = volts(magnitude(shown(solution.ac, a, b, instrument)));
  const dc = volts(shown(solution.dc, a, b, instrument).re);
  return { ac, dc, class: classOf(ac) };
}

function shown(
  spectrum: Spectrum,
  a: number,
  b: number,
  instrument: Pick<Instrument, 'ohms' | 'farads'>,
) {
  const open = voltage(spectrum, a, b);
  if (magnitude(open) === 0) return open;
  const own = burden(instrument, spectrum.hertz);
  return multiply(open, divide(own, add(own, impedanceBetween(spectrum, a, b))));
}

/**
 * Direct-current resistance between two points, ohms: what a dead test shows. Only
 * meaningful where the network is isolated.
 */
export function resistanceBetween(solution: Solution, from: string, to: string): Ohms {
  const a = nodeOf(solution.network, from).index;
  const b = nodeOf(solution.network, to).index;
  return ohms(magnitude(impedanceBetween(solution.dc, a, b)));
}

/** Whether a direct voltage is one an extra-low-voltage source gives, and not a stray one. */
export function isExtraLow(dc: Volts): boolean {
  const size = Math.abs(dc);
  return size >= 1 && size <= EXTRA_LOW_LIMITS.dc;
}
