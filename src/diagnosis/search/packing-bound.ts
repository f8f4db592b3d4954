import type { Reduced } from './reduce.ts';

/**
 * Packing bound: the least number of tests on the path to one bundle. The tests there must tell
 * it from every bundle of another repair, which is a set cover; other bundles of which no single
 * test covers two need a test each, so a packing of such bundles bounds the cover from below.
 * The packing is chosen greedily, first the bundles that the fewest tests cover.
 */
export class PackingBound {
  readonly #problem: Reduced;
  readonly #words: number;
  /** By bundle, made when it is first asked for. */
  readonly #rivals: (Rivals | undefined)[] = [];
  readonly #used: Uint32Array;
  /** By place in the order in hand, one bit each: the bundles that are open. */
  readonly #open: Uint32Array;

  constructor(problem: Reduced) {
    this.#problem = problem;
    this.#words = (problem.tests.length + 31) >> 5;
    this.#used = new Uint32Array(this.#words);
    this.#open = new Uint32Array((problem.count + 31) >> 5);
  }

  /**
   * Least number of tests that tell a bundle from some others.
   * @param others the bundles that are still open; its own repair's may be among them.
   * @param count how many of them there are, from the first.
   */
  testsTo(bundle: number, others: Uint16Array, count: number): number {
    const { places, apart } = this.#rivalsOf(bundle);
    const open = this.#open;
    for (let i = 0; i < count; i++) {
      const place = places[others[i]!]!;
      if (place !== NONE) open[place >> 5]! |= 1 << (place & 31);
    }
    const used = this.#used.fill(0);
    const words = this.#words;
    let tests = 0;
    for (let at = 0; at < open.length; at++) {
      let left = open[at]!;
      open[at] = 0;
      while (left !== 0) {
        const lowest = left & -left;
        left ^= lowest;
        const first = (at * 32 + 31 - Math.clz32(lowest)) * words;
        let word = 0;
        while (word < words && (apart[first + word]! & used[word]!) === 0) word++;
        if (word < words) continue;
        for (word = 0; word < words; word++) used[word]! |= apart[first + word]!;
        tests++;
      }
    }
    return tests;
  }

  #rivalsOf(bundle: number): Rivals {
    this.#rivals[bundle] ??= rivalsOf(this.#problem, bundle, this.#words);
    return this.#rivals[bundle];
  }
}

/** Place of a bundle that no test tells from the one in hand, or that shares its repair. */
const NONE = 65_535;

/** The bundles of other repairs that some test tells from one bundle. */
interface Rivals {
  /** By bundle its place among them, first those that the fewest tests tell apart; or `NONE`. */
  readonly places: Uint16Array;
  /** By place the tests that tell the two apart, one bit each. */
  readonly apart: Uint32Array;
}

function rivalsOf({ count, tests, repairs }: Reduced, bundle: number, words: number): Rivals {
  const apart = new Uint32Array(count * words);
  const counts = new Uint16Array(count);
  for (const [i, { answers }] of tests.entries()) {
    const own = answers[bundle];
    for (let other = 0; other < count; other++) {
      if (answers[other] === own) continue;
      apart[other * words + (i >> 5)]! |= 1 << (i & 31);
      counts[other]!++;
    }
  }
  const order = [...counts.keys()]
    .filter((other) => counts[other]! > 0 && repairs[other] !== repairs[bundle])
    .sort((a, b) => counts[a]! - counts[b]! || a - b);
  const places = new Uint16Array(count).fill(NONE);
  const placed = new Uint32Array(order.length * words);
  for (const [place, other] of order.entries()) {
    places[other] = place;
    placed.set(apart.subarray(other * words, (other + 1) * words), place * words);
  }
  return { places, apart: placed };
}
