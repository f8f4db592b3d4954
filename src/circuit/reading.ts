import { EXTRA_LOW_LIMITS, STATUTORY_LIMITS, VOLT_DROP_LIMIT } from '../published/index.ts';
import { type Ohms, ohms, type Volts, volts } from '../units/index.ts';
import { add, type Complex, divide, magnitude, multiply } from './complex.ts';
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

/** A network solved as far as a reading needs it. */
type Solved = Pick<Solution, 'network' | 'ac' | 'dc'>;

/**
 * What an instrument shows when it is laid between two points of a solved network.
 * Its burden is put in series with the network's own impedance between the points.
 * @param from,to point ids, as in `A1.L`.
 * @throws RangeError for a point the network does not have.
 */
export function read(solution: Solved, from: string, to: string, instrument: Burden): Reading {
  const ac = readVolts(solution, from, to, instrument, 'ac');
  const dc = readVolts(solution, from, to, instrument, 'dc');
  return { ac, dc, class: classOf(ac) };
}

/** One part of the same, volts: RMS, or direct with the first point positive. */
export function readVolts(
  solution: Solved,
  from: string,
  to: string,
  instrument: Burden,
  current: 'ac' | 'dc',
): Volts {
  const { network, [current]: spectrum } = solution;
  const a = nodeOf(network, from).index;
  const b = nodeOf(network, to).index;
  const open = voltage(spectrum, a, b);
  if (open.re === 0 && open.im === 0) return volts(0);
  const shown = loaded(spectrum, a, b, open, instrument);
  return volts(current === 'ac' ? magnitude(shown) : shown.re);
}

/** What is left of the voltage between two nodes when an instrument is laid on them, volts. */
function loaded(spectrum: Spectrum, a: number, b: number, open: Complex, instrument: Burden) {
  const own = burden(instrument, spectrum.hertz);
  return multiply(open, divide(own, add(own, spectrum.impedance(a, b))));
}

/**
 * The class of the alternating voltage that an instrument shows. A load on a passive circuit
 * never raises a voltage: what is dead before the instrument is laid on it is not worked out
 * further.
 */
export function readClass(
  { network, ac }: Pick<Solution, 'network' | 'ac'>,
  from: string,
  to: string,
  instrument: Burden,
): ReadingClass {
  const a = nodeOf(network, from).index;
  const b = nodeOf(network, to).index;
  const open = voltage(ac, a, b);
  if (magnitude(open) <= CLASS_LIMITS.dead) return 'dead';
  return classOf(volts(magnitude(loaded(ac, a, b, open, instrument))));
}

type Burden = Pick<Instrument, 'ohms' | 'farads'>;

/**
 * Direct-current resistance between two points, ohms: what a dead test shows. Only
 * meaningful where the network is isolated.
 */
export function resistanceBetween(
  solution: Pick<Solution, 'network' | 'dc'>,
  from: string,
  to: string,
): Ohms {
  const a = nodeOf(solution.network, from).index;
  const b = nodeOf(solution.network, to).index;
  return ohms(magnitude(impedanceBetween(solution.dc, a, b)));
}

/** Least direct voltage that no stray one reaches, volts (common practice, no source). */
export const EXTRA_LOW_LEAST = volts(1);

/** Whether a direct voltage is one an extra-low-voltage source gives, and not a stray one. */
export function isExtraLow(dc: Volts): boolean {
  const size = Math.abs(dc);
  return size >= EXTRA_LOW_LEAST && size <= EXTRA_LOW_LIMITS.dc;
}
