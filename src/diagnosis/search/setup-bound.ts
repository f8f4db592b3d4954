import { labelsBy, refine } from './partition.ts';
import { type Reduced, setupMinutes } from './reduce.ts';

/** A setup from one standing: what it costs, minutes, and what its tests tell apart. */
interface SetupFrom {
  readonly minutes: number;
  readonly labels: Uint16Array;
}

/**
 * The different costs of a setup from one standing, as far as they were asked for: of a few
 * bundles the cheapest setups leave nothing open.
 */
class SetupLevels {
  /** Setup cost, minutes, ascending; of setups that tell more than all cheaper ones. */
  readonly minutes: number[] = [];
  /** For each cost: bundles with equal labels answer alike in every cheaper setup. */
  readonly labels: Uint16Array[] = [];
  readonly #setups: readonly SetupFrom[];
  readonly #costs: number[];
  #next = 0;
  /** What the setups up to here tell apart, and into how many. */
  #told: Uint16Array;
  #arity = 1;

  constructor(count: number, setups: readonly SetupFrom[]) {
    this.#setups = setups;
    this.#costs = [...new Set(setups.map(({ minutes }) => minutes))].sort((a, b) => a - b);
    this.#told = new Uint16Array(count);
  }

  /** Whether there are more than so many costs. */
  has(level: number): boolean {
    while (this.minutes.length <= level && this.#next < this.#costs.length) {
      const minutes = this.#costs[this.#next++]!;
      const [before, less] = [this.#told, this.#arity];
      if (less === before.length) break;
      this.#told = before.slice();
      for (const setup of this.#setups)
        if (setup.minutes === minutes) this.#arity = refine(this.#told, this.#arity, setup.labels);
      if (this.#arity === less) continue;
      this.minutes.push(minutes);
      this.labels.push(before);
    }
    return this.minutes.length > level;
  }
}

/**
 * Setup bound: a lower bound on what any tree pays for changes of mode and openings, in one pass
 * over the different setup costs. It returns weighed minutes: expected minutes times the
 * weight of the bundles. {@link SetupSearch} bounds the same cost closer, for more work.
 */
export class SetupBound {
  readonly #problem: Reduced;
  readonly #setups: readonly { mode: number; place: number; labels: Uint16Array }[];
  readonly #levels = new Map<number, SetupLevels>();
  readonly #isFree: boolean;
  readonly #repair: Int32Array;
  /** Bundles of which it is still open what they are. */
  readonly #left: Int32Array;

  constructor(problem: Reduced) {
    const { tests, count } = problem;
    this.#problem = problem;
    const setups = Map.groupBy(tests, ({ mode, place }) => `${mode} ${place}`);
    this.#setups = [...setups.values()].map((setup) => {
      const { mode, place } = setup[0]!;
      return { mode, place, labels: labelsBy(count, setup) };
    });
    this.#isFree = problem.modeMinutes.length === 1 && tests.every((test) => test.place < 0);
    this.#repair = new Int32Array(count);
    this.#left = new Int32Array(count);
  }

  /**
   * Setup cost that any tree must pay.
   *
   * Bundles of several repairs that answer alike in all setups cheaper than c are not told apart
   * before a setup of cost c or more is brought about, and all of them are on the path that
   * does so. By the triangle inequality no path comes to a setup for less than from here.
   */
  least(members: readonly number[], weight: number, mode: number, opened: number): number {
    if (this.#isFree) return 0;
    const levels = this.#levelsFrom(mode, opened);
    const left = this.#left;
    let count = members.length;
    for (let i = 0; i < count; i++) left[i] = members[i]!;
    let total = 0;
    let before = 0;
    for (let i = 0; levels.has(i); i++) {
      let paying = weight;
      if (i > 0) {
        count = this.#keepUnresolved(count, levels.labels[i]!);
        if (count === 0) break;
        paying = 0;
        for (let m = 0; m < count; m++) paying += this.#problem.weights[left[m]!]!;
      }
      total += (levels.minutes[i]! - before) * paying;
      before = levels.minutes[i]!;
    }
    return total;
  }

  /**
   * Keeps of the first so many that are left those whose label stands for more than one repair,
   * and returns how many these are. Finer labels leave no others.
   */
  #keepUnresolved(count: number, labels: Uint16Array): number {
    const { repairs } = this.#problem;
    const [left, repair] = [this.#left, this.#repair];
    for (let i = 0; i < count; i++) repair[labels[left[i]!]!] = -1;
    for (let i = 0; i < count; i++) {
      const label = labels[left[i]!]!;
      const own = repairs[left[i]!]!;
      if (repair[label] === -1) repair[label] = own;
      else if (repair[label] !== own) repair[label] = -2;
    }
    let kept = 0;
    for (let i = 0; i < count; i++) if (repair[labels[left[i]!]!] === -2) left[kept++] = left[i]!;
    return kept;
  }

  #levelsFrom(mode: number, opened: number): SetupLevels {
    const { count, modeMinutes } = this.#problem;
    const key = opened * modeMinutes.length + mode;
    const known = this.#levels.get(key);
    if (known) return known;
    const levels = new SetupLevels(
      count,
      this.#setups.map((setup) => ({
        minutes: setupMinutes(this.#problem, { mode, opened }, setup),
        labels: setup.labels,
      })),
    );
    this.#levels.set(key, levels);
    return levels;
  }
}
