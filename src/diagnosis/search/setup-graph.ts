import { type Reduced, weightOfSeveral } from './reduce.ts';
import { SetupBound } from './setup-bound.ts';

/**
 * The graph that the setup search goes through. A setup is what a test needs before it can be
 * read: a mode, and a place opened or none. An OR node is an ambiguity set with the
 * engineer's standing; an AND node brings one setup about and learns all that its tests tell.
 */

/** The bundles that the answers so far leave open, of more than one repair. */
export interface SetupAmbiguitySet {
  readonly members: readonly number[];
  readonly weight: number;
  /** Indices of the setups that split it, ascending; its parent's until it is surveyed. */
  setups: readonly number[];
  surveyed: boolean;
  /** Places of its setups, by bit. */
  places: number;
  readonly nodes: Map<number, SetupOrNode>;
  /** By standing: its setup bound, see `SetupAmbiguitySets.leastFrom`. */
  readonly least: Map<number, number>;
}

/** An ambiguity set and the engineer's standing. */
export interface SetupOrNode {
  readonly suspects: SetupAmbiguitySet;
  readonly mode: number;
  /** Places open, by bit. */
  readonly opened: number;
  /** Lower bound on the setup cost from here, weighed. */
  lower: number;
  /** Whether `lower` is the least cost. */
  solved: boolean;
  /** Whether the relaxed searches have been asked for a bound here. */
  hasRelaxedBound: boolean;
  /** Setups that may come next; null until expanded. */
  choices: SetupAndNode[] | null;
}

/** One setup brought about, with every combination of answers to its tests. */
export interface SetupAndNode {
  /** Index of the setup in the search's problem; −1 where nothing need be brought about. */
  readonly setup: number;
  /** Change of mode and opening, weighed. */
  readonly cost: number;
  lower: number;
  /** One for each ambiguity set that is left; null until first followed. */
  successors: SetupOrNode[] | null;
}

/** The ambiguity sets of one problem, each kept once. */
export class SetupAmbiguitySets {
  readonly #problem: Reduced;
  readonly #setupBound: SetupBound;
  readonly #kept = new Map<string, SetupAmbiguitySet>();
  readonly #every: readonly number[];
  readonly #words: Uint16Array;

  constructor(problem: Reduced) {
    const { count, tests } = problem;
    this.#problem = problem;
    this.#setupBound = new SetupBound(problem);
    this.#every = tests.map((_, setup) => setup);
    this.#words = new Uint16Array((count + 15) >> 4);
  }

  /**
   * The ambiguity set of some bundles; null when they share one repair.
   * @param setups indices of those that may split it; all when left out.
   */
  of(
    members: readonly number[],
    setups: readonly number[] = this.#every,
  ): SetupAmbiguitySet | null {
    const weight = weightOfSeveral(this.#problem, members);
    if (weight === null) return null;
    const words = this.#words.fill(0);
    for (const member of members) words[member >> 4]! |= 1 << (member & 15);
    const key = Reflect.apply(String.fromCharCode, null, words);
    let suspects = this.#kept.get(key);
    if (!suspects) {
      const surveyed = false;
      const nodes = new Map<number, SetupOrNode>();
      const least = new Map<number, number>();
      suspects = { members, weight, setups, surveyed, places: 0, nodes, least };
      this.#kept.set(key, suspects);
    }
    return suspects;
  }

  /** The setup bound of an ambiguity set from a standing: many choices come to the same one. */
  leastFrom({ members, weight, least }: SetupAmbiguitySet, mode: number, opened: number): number {
    const key = opened * this.#problem.modeMinutes.length + mode;
    const known = least.get(key);
    if (known !== undefined) return known;
    const made = this.#setupBound.least(members, weight, mode, opened);
    least.set(key, made);
    return made;
  }

  /** Finds which setups split an ambiguity set, and so the places it needs. */
  survey(suspects: SetupAmbiguitySet): void {
    if (suspects.surveyed) return;
    suspects.surveyed = true;
    const { tests } = this.#problem;
    const { members } = suspects;
    suspects.setups = suspects.setups.filter((setup) => {
      const { answers } = tests[setup]!;
      const common = answers[members[0]!];
      return members.some((member) => answers[member] !== common);
    });
    for (const setup of suspects.setups) {
      const { place } = tests[setup]!;
      if (place >= 0) suspects.places |= 1 << place;
    }
  }
}

/** The choice of least lower bound, the first of equals. */
export function leastOf(choices: readonly SetupAndNode[]): SetupAndNode {
  let least = choices[0]!;
  for (const choice of choices) if (choice.lower < least.lower) least = choice;
  return least;
}
