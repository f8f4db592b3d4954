/** Coefficients of Lanczos's series for the logarithm of Γ (g = 7, n = 9; from memory). */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313,
  -176.61502916214059, 12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6,
  1.5056327351493116e-7,
] as const;

/** Steps of the continued fraction: it has long settled by then. */
const MOST_STEPS = 1000;
const SETTLED = 1e-14;
/** Halvings of an interval of 1: its ends are then the same number. */
const HALVINGS = 60;

/** The natural logarithm of Γ(x), for x > 0. */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const t = x + 6.5;
  const sum = LANCZOS.reduce((all, one, i) => all + (i === 0 ? one : one / (x - 1 + i)), 0);
  return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(sum);
}

/**
 * Chance that a Beta(a, b) lies below x: the regularised incomplete beta function, by its
 * continued fraction (Abramowitz and Stegun 26.5.8, from memory).
 */
export function betaBelow(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - betaBelow(1 - x, b, a);
  const front = Math.exp(
    logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x),
  );
  return (front * fractionOf(x, a, b)) / a;
}

/** The continued fraction, evaluated from its front (Lentz's method). */
function fractionOf(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  const held = (value: number) => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / held(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m <= MOST_STEPS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / held(1 + even * d);
    c = held(1 + even / c);
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / held(1 + odd * d);
    c = held(1 + odd / c);
    value *= d * c;
    if (Math.abs(d * c - 1) < SETTLED) break;
  }
  return value;
}

/** The value below which a Beta(a, b) lies with a chance. */
export function betaQuantile(chance: number, a: number, b: number): number {
  let [low, high] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (betaBelow(middle, a, b) < chance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** A share with how sure it is. */
export interface Interval {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Mean of a Beta(a, b) and the interval that it lies in with a chance, as much of the rest below
 * as above. The marginal of a Dirichlet is one, with b the sum of the other parameters.
 */
export function betaInterval(a: number, b: number, chance = 0.9): Interval {
  const aside = (1 - chance) / 2;
  return {
    mean: a / (a + b),
    low: betaQuantile(aside, a, b),
    high: betaQuantile(1 - aside, a, b),
  };
}
