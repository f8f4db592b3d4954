/**
 * Arithmetic with 512 bits after the point, and nodal analysis in it: the referee where
 * doubles disagree. Every double of an electrical network (1e-15 to 1e15) enters exactly;
 * a network whose admittances spread over 30 decades loses 100 bits and keeps 400.
 */
const FRACTION = 512n;
const ONE = 1n << FRACTION;

/** A complex number whose parts are integers in units of 2^-512. */
export interface Wide {
  readonly re: bigint;
  readonly im: bigint;
}

export const WIDE_ZERO: Wide = { re: 0n, im: 0n };

/** The exact value of a finite double; bits below 2^-512 fall away. */
export function wide(re: number, im = 0): Wide {
  return { re: exactly(re), im: exactly(im) };
}

function exactly(value: number): bigint {
  if (!Number.isFinite(value)) throw new RangeError(`only finite numbers are exact; got ${value}`);
  let scaled = value;
  let shift = FRACTION;
  while (!Number.isInteger(scaled)) {
    scaled *= 2;
    shift -= 1n;
  }
  return shift >= 0n ? BigInt(scaled) << shift : BigInt(scaled) >> -shift;
}

const times = (a: bigint, b: bigint): bigint => (a * b) >> FRACTION;
export const addWide = (a: Wide, b: Wide): Wide => ({ re: a.re + b.re, im: a.im + b.im });
export const subtractWide = (a: Wide, b: Wide): Wide => ({ re: a.re - b.re, im: a.im - b.im });
export const multiplyWide = (a: Wide, b: Wide): Wide => ({
  re: times(a.re, b.re) - times(a.im, b.im),
  im: times(a.re, b.im) + times(a.im, b.re),
});

/** a ÷ b; the products are kept whole, so that a small divisor costs no digits. */
export function divideWide(a: Wide, b: Wide): Wide {
  const square = b.re * b.re + b.im * b.im;
  return {
    re: ((a.re * b.re + a.im * b.im) << FRACTION) / square,
    im: ((a.im * b.re - a.re * b.im) << FRACTION) / square,
  };
}

/** The nearest double to each part. */
export function toDouble(value: Wide): { re: number; im: number } {
  return { re: nearest(value.re), im: nearest(value.im) };
}

function nearest(value: bigint): number {
  // Keep 64 significant bits before the conversion, which rounds to 53.
  const bits = BigInt((value < 0n ? -value : value).toString(2).length);
  const drop = bits > 64n ? bits - 64n : 0n;
  return Number(value >> drop) * 2 ** Number(drop - FRACTION);
}

/** |a − b| / |b|, both wide; 0 where both are nothing. */
export function relativeError(got: { re: number; im: number }, want: Wide): number {
  const difference = toDouble(subtractWide(wide(got.re, got.im), want));
  const size = toDouble(want);
  const error = Math.hypot(difference.re, difference.im);
  return error === 0 ? 0 : error / Math.hypot(size.re, size.im);
}

export { ONE as WIDE_ONE };
