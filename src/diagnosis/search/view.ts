import { EntryBounds } from './entering.ts';
import { labelled } from './labels.ts';
import { type Reach, ReadingBounds } from './readings.ts';
import { type Reduced, weightOfSeveral } from './reduce.ts';
import { splitsOf } from './splits.ts';
import { type Branching, View } from './state.ts';

/** Makes views of one problem and keeps one of each. */
export class Views {
  readonly problem: Reduced;
  readonly entries: EntryBounds;
  readonly #readings: ReadingBounds;
  /** One more than the latest phase. */
  readonly phases: number;
  readonly #kept = new Map<string, View>();
  readonly #words: Uint16Array;
  readonly #byRepair: Float64Array;
  /** Phases by the bits of a set of them. */
  readonly #phaseLists: readonly (readonly number[])[];
  /** By phase: bundles that no test of that phase or a later one tells apart. */
  readonly #classes: readonly Uint16Array[];

  constructor(problem: Reduced) {
    this.problem = problem;
    this.phases = 1 + Math.max(0, ...problem.tests.map((test) => test.phase));
    this.entries = new EntryBounds(problem, this.phases);
    this.#readings = new ReadingBounds(problem, this.phases);
    this.#words = new Uint16Array((problem.count + 15) >> 4);
    this.#byRepair = new Float64Array(problem.count);
    this.#phaseLists = Array.from({ length: 1 << this.phases }, (_, set) =>
      Array.from({ length: this.phases }, (_, phase) => phase).filter(
        (phase) => (set >> phase) & 1,
      ),
    );
    this.#classes = Array.from({ length: this.phases }, (_, phase) =>
      labelled(
        problem.count,
        problem.tests.filter((test) => test.phase >= phase),
      ),
    );
  }

  /** The kept view of some bundles; null when they share one repair. */
  of(members: readonly number[]): View | null {
    const every = this.problem.tests.map((_, i) => i);
    const view = this.#make(members, null, every);
    return view && this.kept(view);
  }

  /** The one view kept of the same bundles. */
  kept(view: View): View {
    if (view.key !== '') return view;
    const words = this.#words.fill(0);
    for (const member of view.members) words[member >> 4]! |= 1 << (member & 15);
    view.key = String.fromCharCode(...words);
    const known = this.#kept.get(view.key);
    if (known) return known;
    this.#kept.set(view.key, view);
    return view;
  }

  /** The ways to split a view; with them its bounds become sharper. */
  branchings(view: View): readonly Branching[] {
    if (view.branchings) return view.branchings;
    const { tests } = this.problem;
    const splits = splitsOf(this.problem, view.members, view.candidates);
    view.candidates = splits.flatMap((split) => split.tests).sort((a, b) => a - b);
    view.splits = splits;
    view.reaches = null;
    view.readings = null;
    view.parent = null;
    let seen = 0;
    for (const test of view.candidates) {
      const { place, phase } = tests[test]!;
      if (place >= 0) view.places |= 1 << place;
      seen |= 1 << phase;
    }
    view.phases = this.#phaseLists[seen]!;
    view.lastPhase = this.#lastPhase(view);
    view.branchings = splits.map((split) => ({
      tests: split.tests,
      parts: this.parts(view, split.parts),
    }));
    return view.branchings;
  }

  /** Views of the parts of more than one repair; not kept. */
  parts(view: View, parts: readonly (readonly number[])[]): View[] {
    const views: View[] = [];
    for (const part of parts) {
      const made = this.#make(part, view, view.candidates);
      if (made) views.push(made);
    }
    return views;
  }

  /** Bound on the readings, weighed. */
  readings(view: View, phase: number): number {
    view.readings ??= [];
    view.readings[phase] ??= this.#readings.readings(view.members, this.#reaches(view), phase);
    return view.readings[phase]!;
  }

  #reaches(view: View): readonly Reach[] {
    view.reaches ??= view.splits
      ? this.#readings.reachOf(view.splits)
      : view.parent
        ? this.#reaches(view.parent)
        : [];
    return view.reaches;
  }

  /** Bits that a branching tells of the repairs, weighed. */
  bitsOf(view: View, { parts }: Branching): number {
    let bits = this.#bits(view);
    for (const part of parts) bits -= this.#bits(part);
    return Math.max(0, bits);
  }

  #bits(view: View): number {
    if (!Number.isNaN(view.bits)) return view.bits;
    const { repairs, weights } = this.problem;
    const byRepair = this.#byRepair;
    let bits = view.weight * Math.log2(view.weight);
    for (const member of view.members) byRepair[repairs[member]!]! += weights[member]!;
    for (const member of view.members) {
      const share = byRepair[repairs[member]!]!;
      if (share === 0) continue;
      bits -= share * Math.log2(share);
      byRepair[repairs[member]!] = 0;
    }
    view.bits = bits;
    return bits;
  }

  #make(
    members: readonly number[],
    parent: View | null,
    candidates: readonly number[],
  ): View | null {
    const weight = weightOfSeveral(this.problem, members);
    return weight === null ? null : new View(members, weight, parent, candidates);
  }

  #lastPhase({ members }: View): number {
    for (let phase = this.phases - 1; phase > 0; phase--) {
      if (this.entries.resolves(members, this.#classes[phase]!)) return phase;
    }
    return 0;
  }
}
