import { labelsBy, refine } from './partition.ts';
import { type Reduced, setupMinutes } from './reduce.ts';

/** The different costs of a setup from one standing. */
interface SetupLevels {
  /** Setup cost, minutes, ascending. */
  readonly minutes: number[];
  /** For each cost: bundles with equal labels answer alike in every cheaper setup. */
  readonly labels: Uint16Array[];
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
    const { minutes, labels } = this.#levelsFrom(mode, opened);
    let total = 0;
    let before = 0;
    for (let i = 0; i < minutes.length; i++) {
      const paying = i === 0 ? weight : this.#unresolved(members, labels[i]!);
      if (paying === 0) break;
      total += (minutes[i]! - before) * paying;
      before = minutes[i]!;
    }
    return total;
  }

  /** Weight of the members whose label stands for more than one repair. */
  #unresolved(members: readonly number[], labels: Uint16Array): number {
    const { repairs, weights } = this.#problem;
    const repair = this.#repair;
    for (const member of members) repair[labels[member]!] = -1;
    for (const member of members) {
      const label = labels[member]!;
      const own = repairs[member]!;
      if (repair[label] === -1) repair[label] = own;
      else if (repair[label] !== own) repair[label] = -2;
    }
    let weight = 0;
    for (const member of members) if (repair[labels[member]!] === -2) weight += weights[member]!;
    return weight;
  }

  #levelsFrom(mode: number, opened: number): SetupLevels {
    const { count, modeMinutes } = this.#problem;
    const key = opened * modeMinutes.length + mode;
    const known = this.#levels.get(key);
    if (known) return known;
    const setups = this.#setups.map((setup) => ({
      minutes: setupMinutes(this.#problem, { mode, opened }, setup),
      labels: setup.labels,
    }));
    const levels: SetupLevels = { minutes: [], labels: [] };
    let labels: Uint16Array = new Uint16Array(count);
    let arity = 1;
    for (const minutes of [...new Set(setups.map((setup) => setup.minutes))].sort(
      (a, b) => a - b,
    )) {
      const before = labels;
      const less = arity;
      labels = labels.slice();
      for (const setup of setups) {
        if (setup.minutes === minutes) arity = refine(labels, arity, setup.labels);
      }
      if (arity === less) continue;
      levels.minutes.push(minutes);
      levels.labels.push(before);
      if (arity === count) break;
    }
    this.#levels.set(key, levels);
    return levels;
  }
}
