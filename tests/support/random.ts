/** A stream of pseudo-random numbers that its seed alone decides. */
export interface Random {
  readonly seed: number;
  /** A number in [0, 1). */
  readonly next: () => number;
  /** A whole number in [0, below). */
  readonly below: (below: number) => number;
  /** A number whose logarithm is even between two positive ends. */
  readonly spread: (low: number, high: number) => number;
  readonly pick: <T>(choices: readonly T[]) => T;
}

/**
 * Seed of every property test: fixed, so that a failure is met again, unless SEED is set in
 * the environment. The tests print it in their names.
 */
export const SEED = Number(process.env.SEED ?? 20_260_228);

/**
 * A generator of 32 bits of state (mulberry32, public domain): enough for a few thousand
 * small networks, and no dependency to keep.
 */
export function random(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (limit: number): number => Math.floor(next() * limit);
  return {
    seed,
    next,
    below,
    spread: (low, high) => low * (high / low) ** next(),
    pick: (choices) => choices[below(choices.length)]!,
  };
}
