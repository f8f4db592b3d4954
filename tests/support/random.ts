import fc from 'fast-check';

/** Choices made one after another, as a program makes them that builds something at random. */
export interface Random {
  /** A number in [0, 1). */
  readonly next: () => number;
  /** A whole number in [0, below). */
  readonly below: (below: number) => number;
  /** A number whose logarithm is even between two positive ends. */
  readonly spread: (low: number, high: number) => number;
  readonly pick: <T>(choices: readonly T[]) => T;
}

/** Steps in which a number in [0, 1) is drawn. */
const STEPS = 2 ** 30;
const fraction = () => fc.noBias(fc.nat(STEPS - 1));
const wholes = new Map<number, () => fc.Arbitrary<number>>();
/** The same function for the same limit: fast-check then finds at once what it made of it. */
function whole(below: number): () => fc.Arbitrary<number> {
  const known = wholes.get(below) ?? (() => fc.nat(below - 1));
  wholes.set(below, known);
  return known;
}

function choices(g: fc.GeneratorValue): Random {
  const next = () => g(fraction) / STEPS;
  const below = (limit: number) => g(whole(limit));
  return Object.assign(
    {
      next,
      below,
      spread: (low: number, high: number) => low * (high / low) ** next(),
      pick: <T>(list: readonly T[]): T => list[below(list.length)]!,
    },
    { [fc.toStringMethod]: () => `choices ${fc.stringify(g.values())}` },
  );
}

/**
 * Choices for one trial of a property, for `test.prop([randoms])`: where a trial fails,
 * fast-check looks for the smallest choices that fail too and prints them with its seed.
 */
export const randoms: fc.Arbitrary<Random> = fc.gen().map(choices);

/** Choices that a seed alone decides, for what is no property: a sample, an order, an example. */
export const random = (seed: number): Random => fc.sample(randoms, { seed, numRuns: 1 })[0]!;
