import { AmbiguitySet, type Branching } from './and-or-graph.ts';
import { partitionsOf } from './partition.ts';
import { type CodeAlphabet, ReadingBound } from './reading-bound.ts';
import { type Reduced, weightOfSeveral } from './reduce.ts';
import { SetupBound } from './setup-bound.ts';

/**
 * The ambiguity sets of one problem, each kept once: which tests split it and how, the bits
 * needed to tell its repairs apart, and the lower bounds on its readings.
 */
export class AmbiguitySets {
  readonly problem: Reduced;
  readonly setupBound: SetupBound;
  readonly #readingBound: ReadingBound;
  readonly #kept = new Map<string, AmbiguitySet>();
  readonly #words: Uint16Array;
  readonly #byRepair: Float64Array;

  constructor(problem: Reduced) {
    this.problem = problem;
    this.setupBound = new SetupBound(problem);
    this.#readingBound = new ReadingBound(problem);
    this.#words = new Uint16Array((problem.count + 15) >> 4);
    this.#byRepair = new Float64Array(problem.count);
  }

  /** The ambiguity set of some bundles; null when they share one repair. */
  of(members: readonly number[]): AmbiguitySet | null {
    const every = this.problem.tests.map((_, i) => i);
    return this.#keptOf(members, null, every);
  }

  /** The ways in which tests split an ambiguity set; knowing them sharpens its bounds. */
  branchings(suspects: AmbiguitySet): readonly Branching[] {
    if (suspects.branchings) return suspects.branchings;
    const { tests } = this.problem;
    const partitions = partitionsOf(this.problem, suspects.members, suspects.candidates);
    suspects.candidates = partitions.flatMap(({ tests }) => tests).sort((a, b) => a - b);
    suspects.alphabets = this.#readingBound.alphabetsOf(partitions);
    suspects.readings = Number.NaN;
    suspects.parent = null;
    for (const test of suspects.candidates) {
      const { place } = tests[test]!;
      if (place >= 0) suspects.places |= 1 << place;
    }
    suspects.branchings = partitions.map(({ tests, parts }) => ({
      tests,
      parts: parts.flatMap((part) => this.#keptOf(part, suspects, suspects.candidates) ?? []),
      told: this.#told(suspects, parts),
    }));
    return suspects.branchings;
  }

  #told({ weight }: AmbiguitySet, parts: readonly (readonly number[])[]): number {
    let heaviest = 0;
    for (const part of parts) {
      let own = 0;
      for (const member of part) own += this.problem.weights[member]!;
      if (own > heaviest) heaviest = own;
    }
    return 1 - heaviest / weight;
  }

  /** Lower bound on the readings, weighed. */
  readings(suspects: AmbiguitySet): number {
    if (Number.isNaN(suspects.readings))
      suspects.readings = this.#readingBound.least(suspects.members, this.#alphabets(suspects));
    return suspects.readings;
  }

  #alphabets(suspects: AmbiguitySet): readonly CodeAlphabet[] {
    suspects.alphabets ??= suspects.parent ? this.#alphabets(suspects.parent) : [];
    return suspects.alphabets;
  }

  /** Information that a branching gives about the repairs, bits, weighed. */
  bitsOf(suspects: AmbiguitySet, { parts }: Branching): number {
    let bits = this.#bits(suspects);
    for (const part of parts) bits -= this.#bits(part);
    return Math.max(0, bits);
  }

  #bits(suspects: AmbiguitySet): number {
    if (!Number.isNaN(suspects.bits)) return suspects.bits;
    const { repairs, weights } = this.problem;
    const byRepair = this.#byRepair;
    let bits = suspects.weight * Math.log2(suspects.weight);
    for (const member of suspects.members) byRepair[repairs[member]!]! += weights[member]!;
    for (const member of suspects.members) {
      const share = byRepair[repairs[member]!]!;
      if (share === 0) continue;
      bits -= share * Math.log2(share);
      byRepair[repairs[member]!] = 0;
    }
    suspects.bits = bits;
    return bits;
  }

  /**
   * The one ambiguity set that is kept of some bundles; null when they share one repair. A set is
   * met as a part of many others: what is known of it is worked out once.
   */
  #keptOf(
    members: readonly number[],
    parent: AmbiguitySet | null,
    candidates: readonly number[],
  ): AmbiguitySet | null {
    const weight = weightOfSeveral(this.problem, members);
    if (weight === null) return null;
    const words = this.#words.fill(0);
    for (const member of members) words[member >> 4]! |= 1 << (member & 15);
    const key = Reflect.apply(String.fromCharCode, null, words) as string;
    const known = this.#kept.get(key);
    if (known) return known;
    const made = new AmbiguitySet(members, weight, parent, candidates);
    this.#kept.set(key, made);
    return made;
  }
}
