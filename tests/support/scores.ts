/** A probability that was stated, and whether what it was stated of was so. */
export interface Stated {
  readonly share: number;
  readonly right: boolean;
}

/** Mean of what a list's members come to. */
const mean = <T>(list: readonly T[], of: (one: T) => number): number =>
  list.reduce((sum, one) => sum + of(one), 0) / list.length;

const hit = ({ right }: Stated): number => Number(right);

/** Mean squared distance of what was stated from what was so (Brier, Monthly Weather Review 78, 1950). */
export const brier = (all: readonly Stated[]): number =>
  mean(all, (one) => (one.share - hit(one)) ** 2);

/** Mean of −ln of the probability that was stated of what was so (Good, J. R. Stat. Soc. B 14, 1952). */
export const logScore = (all: readonly Stated[]): number =>
  mean(all, ({ share, right }) => -Math.log(right ? share : 1 - share));

/** What was stated between two tenths. */
export interface Decile {
  /** Its lower end, in tenths. */
  readonly tenth: number;
  readonly count: number;
  /** Mean probability stated. */
  readonly stated: number;
  /** Share of it that was so, and Wilson's 95 % interval of that. */
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

/** What was stated, by tenths of its probability; tenths in which nothing was are left out. */
export function deciles(all: readonly Stated[]): Decile[] {
  const tenths = Map.groupBy(all, ({ share }) => Math.min(9, Math.floor(share * 10)));
  return [...tenths]
    .sort(([a], [b]) => a - b)
    .map(([tenth, some]) => {
      const right = mean(some, hit);
      const [low, high] = wilson(right * some.length, some.length);
      const stated = mean(some, ({ share }) => share);
      return { tenth, count: some.length, stated, right, low, high };
    });
}

/** Score interval of a share, 95 % (Wilson, J. Am. Stat. Assoc. 22, 1927). */
export function wilson(hits: number, count: number): [low: number, high: number] {
  const z = 1.959964;
  const share = hits / count;
  const middle = share + z ** 2 / (2 * count);
  const wide = z * Math.sqrt((share * (1 - share)) / count + z ** 2 / (4 * count ** 2));
  const whole = 1 + z ** 2 / count;
  return [(middle - wide) / whole, (middle + wide) / whole];
}

/**
 * What the Brier score is made of where few different probabilities are stated: reliability less
 * resolution plus uncertainty (Murphy, J. Applied Meteorology 12, 1973).
 */
export function decomposed(all: readonly Stated[]): {
  readonly reliability: number;
  readonly resolution: number;
  readonly uncertainty: number;
} {
  const base = mean(all, hit);
  const groups = [...Map.groupBy(all, ({ share }) => share).values()];
  const weighed = (of: (stated: number, right: number) => number) =>
    groups.reduce((sum, one) => sum + one.length * of(one[0]!.share, mean(one, hit)), 0) /
    all.length;
  return {
    reliability: weighed((stated, right) => (stated - right) ** 2),
    resolution: weighed((_, right) => (right - base) ** 2),
    uncertainty: base * (1 - base),
  };
}
