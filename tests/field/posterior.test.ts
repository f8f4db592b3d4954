import { describe, expect, test } from 'vitest';
import {
  betaBelow,
  betaInterval,
  betaQuantile,
  DEFAULT_STRENGTH,
  logGamma,
  shareInterval,
  sharesAmong,
  Tally,
} from '../../src/field/index.ts';

/** Tallies counts of families that every system has. */
function tallied(counts: readonly number[]): Tally {
  const tally = new Tally(counts.length);
  for (const [family, count] of counts.entries())
    for (let i = 0; i < count; i++) tally.add({ family });
  return tally;
}

describe('a worked example: sex ratio in births with placenta previa', () => {
  // Gelman et al., Bayesian Data Analysis, 3rd ed., §2.4: 437 girls of 980 births, uniform prior
  // (figures from memory). Posterior Beta(438, 544).
  const girls = betaInterval(438, 544, 0.95);

  test('mean 0.446, standard deviation 0.016', () => {
    expect(girls.mean).toBeCloseTo(0.446, 3);
    // By the chance within one deviation, which is 0.683 where the posterior is near normal.
    const deviation = 0.016;
    const within =
      betaBelow(girls.mean + deviation, 438, 544) - betaBelow(girls.mean - deviation, 438, 544);
    expect(within).toBeCloseTo(0.683, 1);
  });

  test('central 95 % interval [0.415, 0.477]', () => {
    expect(girls.low).toBeCloseTo(0.415, 3);
    expect(girls.high).toBeCloseTo(0.477, 3);
  });

  test('and the tally of a uniform prior comes to the same', () => {
    const posterior = tallied([437, 543]).posterior([1 / 2, 1 / 2], 2);
    expect(posterior.shares[0]).toBeCloseTo(438 / 982, 12);
    const interval = shareInterval(posterior, 0, 0.95);
    expect(interval.low).toBeCloseTo(girls.low, 9);
    expect(interval.high).toBeCloseTo(girls.high, 9);
  });
});

describe('a worked example: an election poll with three answers', () => {
  // Gelman et al., Bayesian Data Analysis, 3rd ed., §3.4: 727, 583 and 137 of 1447, uniform
  // prior, so Dirichlet(728, 584, 138) (figures from memory).
  const posterior = tallied([727, 583, 137]).posterior([1 / 3, 1 / 3, 1 / 3], 3);

  test('the posterior is Dirichlet(728, 584, 138)', () => {
    const parameters = posterior.shares.map((share) => share * 1450);
    for (const [i, one] of [728, 584, 138].entries()) expect(parameters[i]).toBeCloseTo(one, 8);
    expect(posterior.counts).toEqual([727, 583, 137]);
  });

  test('the first leads the second with near certainty, as the book has it', () => {
    // Given that it is one of the two, the first is Beta(728, 584) by the Dirichlet's own law.
    expect(1 - betaBelow(0.5, 728, 584)).toBeGreaterThan(0.9999);
  });

  test('and the marginal of the first is Beta(728, 722)', () => {
    const { low, high } = shareInterval(posterior, 0);
    expect(betaBelow(low, 728, 722)).toBeCloseTo(0.05, 9);
    expect(betaBelow(high, 728, 722)).toBeCloseTo(0.95, 9);
  });
});

describe('the Beta distribution', () => {
  test('Γ(n) is (n − 1)!, and Γ(1/2) is √π', () => {
    expect(logGamma(11)).toBeCloseTo(Math.log(3_628_800), 10);
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.PI) / 2, 12);
    expect(logGamma(0.1)).toBeCloseTo(2.252712651734206, 10);
  });

  test('is the sum of a binomial where both parameters are whole', () => {
    // I_x(a, n − a + 1) = Pr(at least a of n), by definition of the binomial.
    const n = 12;
    const x = 0.3;
    const choose = (k: number): number => (k === 0 ? 1 : (choose(k - 1) * (n - k + 1)) / k);
    for (let a = 1; a <= n; a++) {
      let sum = 0;
      for (let k = a; k <= n; k++) sum += choose(k) * x ** k * (1 - x) ** (n - k);
      expect(betaBelow(x, a, n - a + 1)).toBeCloseTo(sum, 12);
    }
  });

  test('of parameters far below one has its quantiles too', () => {
    const at = betaQuantile(0.95, 0.025, 99.975);
    expect(betaBelow(at, 0.025, 99.975)).toBeCloseTo(0.95, 6);
    expect(at).toBeGreaterThan(0);
    expect(betaQuantile(0.05, 1, 1)).toBeCloseTo(0.05, 12);
  });
});

describe('what a visit cannot show', () => {
  const prior = [0.5, 0.3, 0.2];

  test('is left as it was beside the rest: no pumps seen is no proof that pumps last', () => {
    const tally = new Tally(3);
    const among = new Set([0, 1]);
    for (let i = 0; i < 300; i++) tally.add({ family: i % 3 === 0 ? 1 : 0, among });
    const { shares, chances } = tally.posterior(prior, DEFAULT_STRENGTH);
    expect(shares[2]).toBeCloseTo(0.2, 9);
    expect(chances).toEqual([300, 300, 0]);
    // Of the two that could be shown, what a Dirichlet of these two alone says.
    const [first] = sharesAmong(shares, { family: 0, among });
    expect(first).toBeCloseTo((DEFAULT_STRENGTH * 0.5 + 200) / (DEFAULT_STRENGTH * 0.8 + 300), 9);
  });

  test('and its interval is no narrower than before', () => {
    const tally = new Tally(3);
    for (let i = 0; i < 300; i++) tally.add({ family: 0, among: new Set([0, 1]) });
    const posterior = tally.posterior(prior, DEFAULT_STRENGTH);
    const before = new Tally(3).posterior(prior, DEFAULT_STRENGTH);
    expect(shareInterval(posterior, 2)).toEqual({
      mean: expect.closeTo(0.2, 9),
      low: expect.closeTo(shareInterval(before, 2).low, 9),
      high: expect.closeTo(shareInterval(before, 2).high, 9),
    });
  });

  test('a family that a system is not known to have, and was wrong there, is counted', () => {
    const tally = new Tally(3);
    tally.add({ family: 2, among: new Set([0]) });
    expect(tally.posterior(prior, 1).counts).toEqual([0, 0, 1]);
  });
});

test('the strength is as sure of the table as its own text: twice or half, small ones five times', () => {
  const within = (share: number, factor: number) => {
    const { low, high } = betaInterval(
      share * DEFAULT_STRENGTH,
      (1 - share) * DEFAULT_STRENGTH,
      0.9,
    );
    return low > share / factor && high < share * factor;
  };
  // A middling family is 5 % of the calls, a small one 1 %.
  expect(within(0.05, 2.5)).toBe(true);
  expect(within(0.05, 1.8)).toBe(false);
  const small = betaInterval(0.01 * DEFAULT_STRENGTH, 0.99 * DEFAULT_STRENGTH, 0.9);
  expect(small.high / 0.01).toBeGreaterThan(2.5);
  expect(small.high / 0.01).toBeLessThan(5);
});
