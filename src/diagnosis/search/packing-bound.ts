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
  /** By bundle: for each other bundle the tests that tell the two apart, one bit each. */
  readonly #apart: (Uint32Array | undefined)[] = [];
  /** By bundle: the other bundles, first those that the fewest tests tell from it. */
  readonly #orders: (Uint16Array | undefined)[] = [];
  readonly #used: Uint32Array;

  constructor(problem: Reduced) {
    this.#problem = problem;
    this.#words = (problem.tests.length + 31) >> 5;
    this.#used = new Uint32Array(this.#words);
  }

  /**
   * Least number of tests that tell a bundle from some others.
   * @param others 1 for each bundle that is still open.
   */
  testsTo(bundle: number, others: Uint8Array): number {
    const { repairs } = this.#problem;
    const own = repairs[bundle];
    const apart = this.#apartFrom(bundle);
    const used = this.#used.fill(0);
    const words = this.#words;
    let tests = 0;
    for (const other of this.#orderFrom(bundle)) {
      if (others[other] !== 1 || repairs[other] === own) continue;
      const at = other * words;
      let isFresh = true;
      let some = 0;
      for (let word = 0; word < words; word++) {
        const bits = apart[at + word]!;
        some |= bits;
        if ((bits & used[word]!) === 0) continue;
        isFresh = false;
        break;
      }
      if (!isFresh || some === 0) continue;
      for (let word = 0; word < words; word++) used[word]! |= apart[at + word]!;
      tests++;
    }
    return tests;
  }

  #apartFrom(bundle: number): Uint32Array {
    const known = this.#apart[bundle];
    if (known) return known;
    const { count, tests } = this.#problem;
    const apart = new Uint32Array(count * this.#words);
    for (const [i, { answers }] of tests.entries()) {
      const own = answers[bundle];
      for (let other = 0; other < count; other++)
        if (answers[other] !== own) apart[other * this.#words + (i >> 5)]! |= 1 << (i & 31);
    }
    this.#apart[bundle] = apart;
    return apart;
  }

  #orderFrom(bundle: number): Uint16Array {
    const known = this.#orders[bundle];
    if (known) return known;
    const apart = this.#apartFrom(bundle);
    const counts = Array.from({ length: this.#problem.count }, (_, other) => {
      let count = 0;
      for (let word = 0; word < this.#words; word++)
        count += ones(apart[other * this.#words + word]!);
      return count;
    });
    const order = Uint16Array.from(
      [...counts.keys()].sort((a, b) => counts[a]! - counts[b]! || a - b),
    );
    this.#orders[bundle] = order;
    return order;
  }
}

function ones(bits: number): number {
  let count = 0;
  for (let left = bits; left !== 0; left &= left - 1) count++;
  return count;
}
