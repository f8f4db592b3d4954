import { betaInterval, type Interval } from './beta.ts';

/** What a visit found, and what it could have found: families by their places in a list. */
export interface Met {
  readonly family: number;
  /** Families that the system of the visit has; all where absent. */
  readonly among?: ReadonlySet<number> | undefined;
}

/** Shares after the visits, with how many of these bear on each. */
export interface Posterior {
  /** By family; they add up to 1. */
  readonly shares: readonly number[];
  /** By family: the visits in which it was what was wrong. */
  readonly counts: readonly number[];
  /** By family: the visits to systems that have it, and so could have shown it. */
  readonly chances: readonly number[];
  readonly strength: number;
}

/** Rounds until nothing changes; a few do where most systems have most families. */
const MOST_ROUNDS = 500;
const SETTLED = 1e-12;

/** Visits of one history, taken together as far as they say the same. */
export class Tally {
  readonly #counts: number[];
  /** By the families a system has: how many visits there were to such. */
  readonly #groups = new Map<string, { readonly among: ReadonlySet<number>; visits: number }>();
  #all = 0;

  /** @param families how many families there are */
  constructor(families: number) {
    this.#counts = new Array<number>(families).fill(0);
  }

  /** Counts one visit. */
  add({ family, among }: Met): void {
    this.#counts[family]! += 1;
    this.#all += 1;
    // What was there is there, whatever the entry of the system now says.
    if (!among) return;
    const there = among.has(family) ? among : new Set([...among, family]);
    const key = [...there].sort((a, b) => a - b).join();
    const group = this.#groups.get(key) ?? { among: there, visits: 0 };
    this.#groups.set(key, group);
    group.visits += 1;
  }

  /**
   * The posterior of a Dirichlet prior of a strength: the mean of what each family's share may be
   * once the visits are counted. A visit to a system that lacks a family says nothing of that
   * family: it is taken to stand there as the rest have it, so that a firm that sees no pumps
   * does not come to think that pumps last for ever. Where every system has every family this is
   * prior strength × share + count, over strength + visits.
   */
  posterior(prior: readonly number[], strength: number, from = prior): Posterior {
    const counts = [...this.#counts];
    const chances = counts.map((_, i) =>
      [...this.#groups.values()].reduce(
        (sum, { among, visits }) => (among.has(i) ? sum : sum - visits),
        this.#all,
      ),
    );
    if (this.#all === 0) return { shares: [...prior], counts, chances, strength };
    let shares = [...from];
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const next = this.#filled(prior, strength, shares);
      const moved = next.reduce((most, one, i) => Math.max(most, Math.abs(one - shares[i]!)), 0);
      shares = next;
      if (moved < SETTLED) break;
    }
    return { shares, counts, chances, strength };
  }

  #filled(prior: readonly number[], strength: number, shares: readonly number[]): number[] {
    const weights = prior.map((share, i) => strength * share + this.#counts[i]!);
    for (const { among, visits } of this.#groups.values()) {
      const seen = [...among].reduce((sum, i) => sum + shares[i]!, 0);
      for (const [i, share] of shares.entries())
        if (!among.has(i)) weights[i]! += (visits * share) / seen;
    }
    const all = weights.reduce((sum, one) => sum + one, 0);
    return weights.map((one) => one / all);
  }
}

/** A family's share with its 90 % interval: the marginal Beta, of the visits that bear on it. */
export function shareInterval(
  { shares, chances, strength }: Posterior,
  family: number,
  chance = 0.9,
): Interval {
  const known = strength + chances[family]!;
  return betaInterval(shares[family]! * known, (1 - shares[family]!) * known, chance);
}

/** Shares among some of the families alone; none of the others. */
export function sharesAmong(shares: readonly number[], { family, among }: Met): readonly number[] {
  if (!among) return shares;
  const has = (i: number) => among.has(i) || i === family;
  const all = shares.reduce((sum, share, i) => sum + (has(i) ? share : 0), 0);
  return shares.map((share, i) => (has(i) ? share / all : 0));
}
