import { huffman } from './coding.ts';
import { Covers } from './covers.ts';
import { labelled } from './labels.ts';
import type { Reduced } from './reduce.ts';
import type { Split } from './splits.ts';

/** How far the tests that split some bundles reach, of those that take some minutes at least. */
export interface Reach {
  /** Most answers of one test. */
  readonly arity: number;
  /** Bundles without which no test has more than two answers. */
  readonly rare: Uint16Array;
}

/** No reach known: every test may split every bundle. */
const UNKNOWN: Reach = {
  arity: 65_535,
  rare: new Uint16Array(),
};

/**
 * Lower bounds on the minutes for readings alone; with those of {@link EntryBounds} they add
 * up. What they return is weighed: expected minutes times the weight of the bundles.
 */
export class ReadingBounds {
  readonly #problem: Reduced;
  /** Minutes that tests take, ascending, without 0. */
  readonly #levels: readonly number[];
  readonly #levelsIn: readonly { level: number; labels: Uint16Array }[][];
  readonly #next: Int32Array;
  readonly #head: Int32Array;
  readonly #byRepair: Float64Array;
  readonly #leaves: Float64Array;
  readonly #isRare: Uint8Array;
  readonly #covers: Covers;
  readonly #isOpen: Uint8Array;
  /** Bundle left out of a sum of leaves; −1 for none. */
  #without = -1;

  constructor(problem: Reduced, phases: number) {
    const { tests, count } = problem;
    this.#problem = problem;
    this.#levels = [...new Set(tests.map((test) => test.minutes))]
      .filter((minutes) => minutes > 0)
      .sort((a, b) => a - b);
    this.#levelsIn = Array.from({ length: phases }, (_, phase) => {
      const open = tests.filter((test) => test.phase >= phase);
      return this.#levels.flatMap((minutes, level) =>
        open.some((test) => test.minutes === minutes)
          ? [
              {
                level,
                labels: labelled(
                  count,
                  open.filter((test) => test.minutes < minutes),
                ),
              },
            ]
          : [],
      );
    });
    this.#next = new Int32Array(count);
    this.#head = new Int32Array(count).fill(-1);
    this.#byRepair = new Float64Array(count);
    this.#leaves = new Float64Array(count);
    this.#isRare = new Uint8Array(count);
    this.#covers = new Covers(problem, phases);
    this.#isOpen = new Uint8Array(count);
  }

  /** How far the tests behind some splits reach, level by level of {@link readings}. */
  reachOf(splits: readonly Split[]): Reach[] {
    const { tests, weights } = this.#problem;
    const reaches: Reach[] = [];
    let before = -1;
    for (const minutes of this.#levels) {
      const able = splits.filter((split) =>
        split.tests.some((test) => tests[test]!.minutes >= minutes),
      );
      if (able.length !== before) reaches.push(reach(able, weights));
      else reaches.push(reaches.at(-1)!);
      before = able.length;
    }
    return reaches;
  }

  /**
   * Readings that any tree must pay for.
   *
   * The minutes of a test are the sum of its steps up the ladder of levels. For the step to
   * a level only tests at or above it pay; let those below tell all they can for nothing,
   * and within what is then still alike every tree is a code for the repairs: it takes no
   * fewer tests than Huffman's, which in turn is no less than the entropy.
   */
  readings(members: readonly number[], reaches: readonly Reach[], phase: number): number {
    let minutes = 0;
    let before = 0;
    for (const { level, labels } of this.#levelsIn[phase]!) {
      const step = this.#levels[level]! - before;
      minutes += step * this.#testsWithin(members, labels, reaches[level] ?? UNKNOWN, phase);
      before = this.#levels[level]!;
    }
    return minutes;
  }

  #testsWithin(
    members: readonly number[],
    labels: Uint16Array,
    reach: Reach,
    phase: number,
  ): number {
    const next = this.#next;
    const head = this.#head;
    for (let i = members.length - 1; i >= 0; i--) {
      const label = labels[members[i]!]!;
      next[i] = head[label]!;
      head[label] = i;
    }
    for (const bundle of reach.rare) this.#isRare[bundle] = 1;
    let tests = 0;
    for (let i = 0; i < members.length; i++) {
      const label = labels[members[i]!]!;
      const first = head[label]!;
      if (first < 0) continue;
      head[label] = -1;
      tests += this.#testsAmong(members, first, reach, phase);
    }
    for (const bundle of reach.rare) this.#isRare[bundle] = 0;
    return tests;
  }

  /**
   * Least tests for the members in the list that starts at `first`, weighed: those of a code
   * for them all, or those on the way to the heaviest and a code for the rest, whose tree is
   * no dearer without it. What is likely, as that nothing is wrong, may take many more tests
   * to prove than a code would give it.
   */
  #testsAmong(members: readonly number[], first: number, reach: Reach, phase: number): number {
    const coded = this.#testsFor(members, first, reach);
    if (coded === 0) return 0;
    const next = this.#next;
    const heaviest = members[first]!;
    for (let i = first; i >= 0; i = next[i]!) this.#isOpen[members[i]!] = 1;
    const way = this.#covers.testsTo(heaviest, this.#isOpen, phase);
    for (let i = first; i >= 0; i = next[i]!) this.#isOpen[members[i]!] = 0;
    this.#without = heaviest;
    const rest = this.#testsFor(members, first, reach);
    this.#without = -1;
    return Math.max(coded, way * this.#problem.weights[heaviest]! + rest);
  }

  /**
   * Least tests for the members in the list that starts at `first`, weighed. Rare bundles
   * may be left out, a tree without them being no dearer: they still take one test each.
   */
  #testsFor(members: readonly number[], first: number, reach: Reach): number {
    const leaves = this.#leaves;
    const count = this.#gather(members, first, false);
    if (count < 2) return 0;
    let weight = 0;
    for (let i = 0; i < count; i++) weight += leaves[i]!;
    if (count === 2) return weight;
    const { arity, rare } = reach;
    const all = huffman(leaves, count, arity);
    if (rare.length === 0) return all;
    const common = this.#gather(members, first, true);
    let kept = 0;
    for (let i = 0; i < common; i++) kept += leaves[i]!;
    return Math.max(all, weight - kept + Math.max(kept, huffman(leaves, common, 2)));
  }

  /** Weights by repair of the members in a list, into `#leaves`. */
  #gather(members: readonly number[], first: number, withoutRare: boolean): number {
    const { repairs, weights } = this.#problem;
    const next = this.#next;
    const byRepair = this.#byRepair;
    for (let i = first; i >= 0; i = next[i]!) {
      const bundle = members[i]!;
      if (bundle === this.#without || (withoutRare && this.#isRare[bundle] === 1)) continue;
      byRepair[repairs[bundle]!]! += weights[bundle]!;
    }
    let count = 0;
    for (let i = first; i >= 0; i = next[i]!) {
      const repair = repairs[members[i]!]!;
      if (byRepair[repair]! === 0) continue;
      this.#leaves[count++] = byRepair[repair]!;
      byRepair[repair] = 0;
    }
    return count;
  }
}

function reach(splits: readonly Split[], weights: Float64Array): Reach {
  const rare = new Set<number>();
  let arity = 2;
  for (const { parts } of splits) {
    if (parts.length < 3) continue;
    arity = Math.max(arity, parts.length);
    const byWeight = parts
      .map((part) => ({ part, weight: weightOf(part, weights, rare) }))
      .sort((a, b) => b.weight - a.weight);
    for (const { part } of byWeight.slice(2)) for (const bundle of part) rare.add(bundle);
  }
  return { arity, rare: Uint16Array.from(rare) };
}

function weightOf(
  part: readonly number[],
  weights: Float64Array,
  without: ReadonlySet<number>,
): number {
  let weight = 0;
  for (const bundle of part) if (!without.has(bundle)) weight += weights[bundle]!;
  return weight;
}
