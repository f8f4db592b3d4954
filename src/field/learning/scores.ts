import { type Met, sharesAmong, Tally } from './posterior.ts';

/** How well something was foretold; less is better. */
export interface Scores {
  /** Mean of −ln of the share that was stated of what it was (Good 1952). */
  readonly log: number;
  /** Mean squared distance of what was stated from what it was, summed over families (Brier 1950). */
  readonly brier: number;
}

/** The shares that hold for everybody, and those learned on the way, by the same visits. */
export interface Compared {
  readonly visits: number;
  readonly prior: Scores;
  readonly posterior: Scores;
}

/**
 * How well each visit was foretold from those before it (prequential: Dawid 1984): by the prior
 * alone, and by the posterior as it stood then. Both are told what the system has.
 */
export function foretold(
  visits: readonly Met[],
  prior: readonly number[],
  strength: number,
): Compared {
  const tally = new Tally(prior.length);
  const sums = { prior: { log: 0, brier: 0 }, posterior: { log: 0, brier: 0 } };
  let shares: readonly number[] = prior;
  for (const met of visits) {
    for (const [who, stated] of [
      ['prior', prior],
      ['posterior', shares],
    ] as const) {
      const { log, brier } = scoreOf(sharesAmong(stated, met), met.family);
      sums[who].log += log;
      sums[who].brier += brier;
    }
    tally.add(met);
    ({ shares } = tally.posterior(prior, strength, shares));
  }
  const mean = ({ log, brier }: Scores): Scores => ({
    log: log / visits.length,
    brier: brier / visits.length,
  });
  return { visits: visits.length, prior: mean(sums.prior), posterior: mean(sums.posterior) };
}

/** Both scores of one statement. */
export function scoreOf(stated: readonly number[], was: number): Scores {
  return {
    log: -Math.log(stated[was]!),
    brier: stated.reduce((sum, share, i) => sum + (share - (i === was ? 1 : 0)) ** 2, 0),
  };
}

/**
 * How much worse, in log score a visit, learning can make the forecast where the prior is right
 * all along: at n visits the expected loss is about (families − 1) n / 2 (strength + n)², most at
 * n = strength (from the second-order term of the divergence, derived).
 */
export const mostLost = (families: number, strength: number): number =>
  (families - 1) / (8 * strength);
