import { describe, expect, test } from 'vitest';
import { FAMILIES, HISTORIES, OUR_SHARES } from '../../src/diagnosis/index.ts';
import {
  DEFAULT_STRENGTH,
  FAMILY_IDS,
  foretold,
  learn,
  type Met,
  mostLost,
  scoreOf,
} from '../../src/field/index.ts';
import { property } from '../support/property.ts';
import { type Random, random } from '../support/random.ts';

const normal = (weights: readonly number[]): number[] => {
  const all = weights.reduce((sum, one) => sum + one, 0);
  return weights.map((one) => one / all);
};
/** Our shares of what worked until now. */
const OURS = normal(FAMILY_IDS.map((family) => FAMILIES[family].percent[0]));

function drawn(from: Random, shares: readonly number[], visits: number): Met[] {
  return Array.from({ length: visits }, () => {
    let left = from.next();
    const family = shares.findIndex((share) => {
      left -= share;
      return left < 0;
    });
    return { family: family === -1 ? shares.length - 1 : family };
  });
}

describe('the scores', () => {
  test('of one forecast, by hand', () => {
    // Brier (1950), summed over the classes; Good (1952), −ln of what was stated of the truth.
    const { log, brier } = scoreOf([0.7, 0.2, 0.1], 0);
    expect(log).toBeCloseTo(0.35667, 5);
    expect(brier).toBeCloseTo(0.09 + 0.04 + 0.01, 12);
    expect(scoreOf([0, 1], 1)).toEqual({ log: -0, brier: 0 });
  });

  test('each visit is foretold from those before it alone', () => {
    // The first by the prior itself; the second by (s p + 1)/(s + 1) (rule of succession).
    const prior = [0.5, 0.5];
    const one = foretold([{ family: 0 }], prior, 2);
    expect(one.posterior).toEqual(one.prior);
    const two = foretold([{ family: 0 }, { family: 0 }], prior, 2);
    expect(two.posterior.log).toBeCloseTo((-Math.log(1 / 2) - Math.log(2 / 3)) / 2, 12);
  });
});

describe('simulated visits', () => {
  test('of a firm whose faults differ are foretold the better, the more there are', () => {
    // A firm of valves and joints: common practice, no source; what it is does not matter.
    const theirs = normal(
      FAMILY_IDS.map(
        (family, i) =>
          OURS[i]! *
          (family === 'joint' ? 6 : family === 'valve' ? 2 : family === 'boiler' ? 0.3 : 1),
      ),
    );
    const gains = [50, 200, 800].map((visits) => {
      const firms = Array.from({ length: 12 }, (_, seed) =>
        foretold(drawn(random(seed + 1), theirs, visits), OURS, DEFAULT_STRENGTH),
      );
      const mean = (of: (one: (typeof firms)[number]) => number) =>
        firms.reduce((sum, one) => sum + of(one), 0) / firms.length;
      return [
        mean(({ prior, posterior }) => prior.log - posterior.log),
        mean(({ prior, posterior }) => prior.brier - posterior.brier),
      ] as const;
    });
    for (const [log, brier] of gains) {
      expect(log).toBeGreaterThan(0);
      expect(brier).toBeGreaterThan(0);
    }
    expect(gains[2]![0]).toBeGreaterThan(gains[1]![0]);
    expect(gains[1]![0]).toBeGreaterThan(gains[0]![0]);
  });

  test('of a firm whose faults are as ours lose no more than the bound that is stated', () => {
    const bound = mostLost(FAMILY_IDS.length, DEFAULT_STRENGTH);
    expect(bound).toBeCloseTo(0.021, 3);
    const losses = Array.from({ length: 60 }, (_, seed) => {
      const visits = drawn(random(1000 + seed), OURS, 200);
      const { prior, posterior } = foretold(visits, OURS, DEFAULT_STRENGTH);
      return posterior.log - prior.log;
    });
    expect(losses.reduce((sum, one) => sum + one, 0) / losses.length).toBeLessThan(bound);
  });

  property(
    'whatever is visited, a forecast loses no more than its share of the weight',
    20,
    (from) => {
      // A share is at least strength × prior over strength + visits, so −ln of it is at most
      // ln(1 + visits / strength) above the prior's, whatever the visits were (derived).
      const visits = 1 + from.below(120);
      const met = Array.from({ length: visits }, () => ({ family: from.below(OURS.length) }));
      const { prior, posterior } = foretold(met, OURS, DEFAULT_STRENGTH);
      expect(posterior.log - prior.log).toBeLessThanOrEqual(
        Math.log(1 + visits / DEFAULT_STRENGTH),
      );
    },
  );
});

describe('what a firm learns', () => {
  const visit = (i: number, family: (typeof FAMILY_IDS)[number] | 'sound' | 'other') => ({
    id: `visit-${i}`.padEnd(8, '0'),
    on: '2026-05-01',
    system: 'combi-two-wire',
    history: HISTORIES[0],
    family,
    minutes: null,
  });

  test('no visit of a history leaves its shares as they are, to the last digit', () => {
    const learned = learn([visit(1, 'valve')], DEFAULT_STRENGTH, () => undefined);
    for (const family of FAMILY_IDS)
      for (const at of [1, 2]) expect(learned.families[family][at]).toBe(OUR_SHARES[family][at]);
    expect(learned.families.valve[0]).toBeGreaterThan(OUR_SHARES.valve[0]);
    expect(learned.histories[1]!.foretold).toBeNull();
  });

  test('visits with nothing wrong, or nothing of the list, move no share', () => {
    const learned = learn(
      [visit(1, 'sound'), visit(2, 'other')],
      DEFAULT_STRENGTH,
      () => undefined,
    );
    expect(learned.families).toEqual(OUR_SHARES);
    expect([learned.visits, learned.aside]).toEqual([0, { sound: 1, other: 1 }]);
  });

  test('the order of a file of counts changes nothing', () => {
    const visits = FAMILY_IDS.map((family, i) => visit(i + 10, family));
    const one = learn(visits, DEFAULT_STRENGTH, () => undefined);
    expect(learn(visits.toReversed(), DEFAULT_STRENGTH, () => undefined)).toEqual(one);
  });
});
