import { huffmanBound } from './huffman-bound.ts';
import { PackingBound } from './packing-bound.ts';
import type { Partition } from './partition.ts';
import { labelsBy } from './partition.ts';
import type { Reduced } from './reduce.ts';

/**
 * What is known of the number of answers of the tests that split some bundles: the size of the
 * alphabet in which the Huffman bound may code them.
 */
export interface CodeAlphabet {
  /** Most answers of one test. */
  readonly arity: number;
  /**
   * 1 for each of the lighter bundles, without which no test has more than two answers; null
   * where there are none.
   */
  readonly isRare: Uint8Array | null;
}

/** Nothing known: a test may have an answer for every bundle. */
const UNKNOWN: CodeAlphabet = {
  arity: 65_535,
  isRare: null,
};

/**
 * Reading bound: a lower bound on the minutes that any tree takes for readings alone, by the
 * Huffman bound and the packing bound at each level of test minutes. It returns weighed minutes:
 * expected minutes times the weight of the bundles. Setup cost comes on top of it.
 */
export class ReadingBound {
  readonly #problem: Reduced;
  /** The different minutes that readings take, ascending, without 0. */
  readonly #levels: readonly number[];
  /** By level: labels are equal where no test below the level tells bundles apart. */
  readonly #labels: readonly Uint16Array[];
  /** Bundles that the tests below the level in hand leave open, and 1 where they stay so at it. */
  readonly #open: Uint16Array;
  readonly #stays: Uint8Array;
  /** Those of equal label as linked lists: the head by label, the next by place; −1 ends one. */
  readonly #next: Int32Array;
  readonly #head: Int32Array;
  readonly #byRepair: Float64Array;
  readonly #leaves: Float64Array;
  readonly #packingBound: PackingBound;
  /** Members of the list in hand. */
  readonly #listed: Uint16Array;
  /** Bundle that `#gather` leaves out; −1 where it leaves out no bundle. */
  #without = -1;

  constructor(problem: Reduced) {
    const { tests, count } = problem;
    this.#problem = problem;
    this.#levels = [...new Set(tests.map((test) => test.minutes))]
      .filter((minutes) => minutes > 0)
      .sort((a, b) => a - b);
    this.#labels = this.#levels.map((minutes) =>
      labelsBy(
        count,
        tests.filter((test) => test.minutes < minutes),
      ),
    );
    this.#open = new Uint16Array(count);
    this.#stays = new Uint8Array(count);
    this.#next = new Int32Array(count);
    this.#head = new Int32Array(count).fill(-1);
    this.#byRepair = new Float64Array(count);
    this.#leaves = new Float64Array(count);
    this.#packingBound = new PackingBound(problem);
    this.#listed = new Uint16Array(count);
  }

  /** What is known of the number of answers of the tests behind some partitions, by level. */
  alphabetsOf(partitions: readonly Partition[]): CodeAlphabet[] {
    const { tests, weights } = this.#problem;
    const alphabets: CodeAlphabet[] = [];
    let before = -1;
    for (const minutes of this.#levels) {
      const able = partitions.filter((partition) =>
        partition.tests.some((test) => tests[test]!.minutes >= minutes),
      );
      if (able.length !== before) alphabets.push(alphabetOf(able, weights));
      else alphabets.push(alphabets.at(-1)!);
      before = able.length;
    }
    return alphabets;
  }

  /**
   * Minutes of readings that any tree must take.
   *
   * The minutes of a test are the sum of the steps from level to level up to its own. Only tests
   * at or above a level pay the step to it. Let the tests below it tell for nothing all they
   * can; within the bundles that then still answer alike, every tree is a code for the repairs
   * and takes no fewer tests than Huffman's code does.
   */
  least(members: readonly number[], alphabets: readonly CodeAlphabet[]): number {
    const open = this.#open;
    let count = members.length;
    for (let i = 0; i < count; i++) open[i] = members[i]!;
    let minutes = 0;
    let before = 0;
    // What the tests below a level tell apart, those below the next do too: fewer stay open.
    for (let level = 0; level < this.#levels.length && count > 0; level++) {
      const step = this.#levels[level]! - before;
      minutes += step * this.#testsWithin(count, level, alphabets[level] ?? UNKNOWN);
      before = this.#levels[level]!;
      let kept = 0;
      for (let i = 0; i < count; i++) if (this.#stays[i] === 1) open[kept++] = open[i]!;
      count = kept;
    }
    return minutes;
  }

  /** Least number of tests at or above a level, of the first so many that are open, weighed. */
  #testsWithin(count: number, level: number, alphabet: CodeAlphabet): number {
    const labels = this.#labels[level]!;
    const open = this.#open;
    const next = this.#next;
    const head = this.#head;
    for (let i = count - 1; i >= 0; i--) {
      const label = labels[open[i]!]!;
      next[i] = head[label]!;
      head[label] = i;
    }
    this.#stays.fill(0, 0, count);
    let tests = 0;
    for (let i = 0; i < count; i++) {
      const label = labels[open[i]!]!;
      const first = head[label]!;
      if (first < 0) continue;
      head[label] = -1;
      // Alone, it is told from the others already.
      if (next[first]! < 0) continue;
      tests += this.#testsAmong(first, alphabet);
    }
    return tests;
  }

  /**
   * Least number of tests for the bundles in the list that starts at `first`, weighed: the
   * Huffman bound for them all or, if that is more, the packing bound for the heaviest and the
   * Huffman bound for the rest, since without the heaviest a tree costs no more. A likely end,
   * such as that nothing is wrong, may take many more tests to prove than a code allots to it.
   */
  #testsAmong(first: number, alphabet: CodeAlphabet): number {
    const coded = this.#testsFor(first, alphabet);
    if (coded === 0) return 0;
    const next = this.#next;
    const open = this.#open;
    const heaviest = open[first]!;
    let count = 0;
    for (let i = first; i >= 0; i = next[i]!) {
      this.#listed[count++] = open[i]!;
      this.#stays[i] = 1;
    }
    const path = this.#packingBound.testsTo(heaviest, this.#listed, count);
    this.#without = heaviest;
    const rest = this.#testsFor(first, alphabet);
    this.#without = -1;
    return Math.max(coded, path * this.#problem.weights[heaviest]! + rest);
  }

  /**
   * Huffman bound for the bundles in the list that starts at `first`, weighed. Rare bundles may
   * be left out, since without them a tree costs no more; they still take one test each, and
   * the code of the others has two letters.
   */
  #testsFor(first: number, alphabet: CodeAlphabet): number {
    const leaves = this.#leaves;
    const count = this.#gather(first, null);
    if (count < 2) return 0;
    let weight = 0;
    for (let i = 0; i < count; i++) weight += leaves[i]!;
    if (count === 2) return weight;
    const { arity, isRare } = alphabet;
    const all = huffmanBound(leaves, count, arity);
    if (!isRare) return all;
    const common = this.#gather(first, isRare);
    let kept = 0;
    for (let i = 0; i < common; i++) kept += leaves[i]!;
    return Math.max(all, weight - kept + Math.max(kept, huffmanBound(leaves, common, 2)));
  }

  /** Weights by repair of the bundles in a list but the rare, into `#leaves`. */
  #gather(first: number, isRare: Uint8Array | null): number {
    const { repairs, weights } = this.#problem;
    const next = this.#next;
    const open = this.#open;
    const byRepair = this.#byRepair;
    for (let i = first; i >= 0; i = next[i]!) {
      const bundle = open[i]!;
      if (bundle === this.#without || isRare?.[bundle] === 1) continue;
      byRepair[repairs[bundle]!]! += weights[bundle]!;
    }
    let count = 0;
    for (let i = first; i >= 0; i = next[i]!) {
      const repair = repairs[open[i]!]!;
      if (byRepair[repair]! === 0) continue;
      this.#leaves[count++] = byRepair[repair]!;
      byRepair[repair] = 0;
    }
    return count;
  }
}

function alphabetOf(partitions: readonly Partition[], weights: Float64Array): CodeAlphabet {
  let isRare: Uint8Array | null = null;
  let arity = 2;
  for (const { parts } of partitions) {
    if (parts.length < 3) continue;
    arity = Math.max(arity, parts.length);
    const byWeight = parts
      .map((part) => ({ part, weight: weightOf(part, weights, isRare) }))
      .sort((a, b) => b.weight - a.weight);
    isRare ??= new Uint8Array(weights.length);
    for (const { part } of byWeight.slice(2)) for (const bundle of part) isRare[bundle] = 1;
  }
  return { arity, isRare };
}

function weightOf(
  part: readonly number[],
  weights: Float64Array,
  without: Uint8Array | null,
): number {
  let weight = 0;
  for (const bundle of part) if (without?.[bundle] !== 1) weight += weights[bundle]!;
  return weight;
}
