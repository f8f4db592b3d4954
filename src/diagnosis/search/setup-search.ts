import { type Meter, TOLERANCE } from './and-or-graph.ts';
import { partsOf, refine } from './partition.ts';
import { mayComeFirst, type Reduced, setupMinutes } from './reduce.ts';
import {
  leastOf,
  type SetupAmbiguitySet,
  SetupAmbiguitySets,
  type SetupAndNode,
  type SetupOrNode,
} from './setup-graph.ts';

/**
 * Lower bound on the setup cost of any tree: AO* on the problem with all readings free, so that
 * bringing a setup about tells at once all that its tests tell. Cheaper than the whole problem,
 * and closer than {@link SetupBound}, because it follows what is left after each setup.
 *
 * A node is solved when all that follows its cheapest choice is. Neither trees nor upper bounds
 * are kept: a choice is followed only while its lower bound is the least. Set-up costs in test
 * sequencing: Ruan, Tu, Pattipati and Patterson-Hine, IEEE Trans. SMC-B 34(3), 2004.
 */
export class SetupSearch {
  /** A problem with one test for each setup, its reading free. */
  readonly #problem: Reduced;
  readonly #meter: Meter;
  readonly #relaxed: readonly SetupSearch[];
  readonly #effort: number;
  readonly #sets: SetupAmbiguitySets;
  readonly #hasPlaces: boolean;

  /**
   * @param relaxed searches of further relaxations, whose least costs add up to a bound of this one.
   * @param effort nodes that each of them may expand when asked about one node.
   */
  constructor(problem: Reduced, meter: Meter, relaxed: readonly SetupSearch[] = [], effort = 4) {
    this.#problem = problem;
    this.#meter = meter;
    this.#relaxed = relaxed;
    this.#effort = effort;
    this.#sets = new SetupAmbiguitySets(problem);
    this.#hasPlaces = problem.tests.some((test) => test.place >= 0);
  }

  /**
   * A lower bound on the setup cost from a standing with some bundles left, weighed; it gets
   * better each time it is asked.
   * @param effort nodes that it may expand.
   */
  bound(members: readonly number[], mode: number, opened: number, effort: number): number {
    const suspects = this.#sets.of(members);
    if (!suspects) return 0;
    const node = this.#node(
      suspects,
      this.#problem.modeMinutes.length > 1 ? mode : 0,
      this.#hasPlaces ? opened : 0,
    );
    const limit = this.#meter.expanded + effort;
    while (!node.solved && this.#meter.expanded < limit) this.#trial(node);
    return node.lower;
  }

  #trial(node: SetupOrNode): void {
    if (!node.choices) {
      if (!node.hasRelaxedBound && this.#raiseByRelaxed(node)) return;
      this.#expand(node);
    } else {
      const choice = leastOf(node.choices);
      if (choice.successors) {
        let largest: SetupOrNode | null = null;
        for (const next of choice.successors) {
          if (!next.solved && (!largest || next.lower > largest.lower)) largest = next;
        }
        if (largest) this.#trial(largest);
      } else choice.successors = this.#follow(node, choice);
    }
    this.#backUp(node, node.choices!);
  }

  /**
   * Carries the bounds of what follows up to a node. Of nodes shared by several choices a bound
   * may have risen since; so the cheapest choice is added up anew until it stays the cheapest.
   */
  #backUp(node: SetupOrNode, choices: readonly SetupAndNode[]): void {
    let least = leastOf(choices);
    for (;;) {
      if (!least.successors) break;
      let lower = least.cost;
      for (const next of least.successors) lower += next.lower;
      if (lower <= least.lower) break;
      least.lower = lower;
      least = leastOf(choices);
    }
    if (least.lower > node.lower) node.lower = least.lower;
    if (!least.successors?.every((next) => next.solved)) return;
    node.solved = true;
    node.choices = [];
  }

  /** Asks the relaxed searches for a bound; returns whether that raised the lower bound. */
  #raiseByRelaxed(node: SetupOrNode): boolean {
    node.hasRelaxedBound = true;
    let lower = 0;
    for (const search of this.#relaxed)
      lower += search.bound(node.suspects.members, node.mode, node.opened, this.#effort);
    if (lower <= node.lower + TOLERANCE) return false;
    node.lower = lower;
    return true;
  }

  /** Each choice changes the mode and leaves the covers as they are, or takes one cover off for a mode. */
  #expand(node: SetupOrNode): void {
    this.#meter.expanded++;
    const { tests, modeMinutes } = this.#problem;
    const { suspects, mode, opened } = node;
    const isOpen = (place: number) => place < 0 || ((opened >> place) & 1) === 1;
    const choices: SetupAndNode[] = [];
    /** Whether what costs nothing may come first; asked only where something costs nothing. */
    const takesFree = () =>
      mayComeFirst(
        this.#problem,
        suspects.setups.map((setup) => [setup]),
        opened,
      );
    /** Adds a choice; returns true where it may come first at no cost: it is then the only one. */
    const add = (setup: number, minutes: number): boolean => {
      const test = tests[setup]!;
      const cost = minutes * suspects.weight;
      const after = test.place < 0 ? opened : opened | (1 << test.place);
      const lower = cost + this.#sets.leastFrom(suspects, test.mode, after & suspects.places);
      const choice: SetupAndNode = { setup, cost, lower, successors: null };
      if (minutes === 0 && modeMinutes[test.mode]![mode] === 0 && takesFree()) {
        node.choices = [choice];
        return true;
      }
      choices.push(choice);
      return false;
    };
    /** Modes that tell something with the covers as they are: one choice each. */
    const told = new Set<number>();
    for (const setup of suspects.setups) {
      const { mode: to, place } = tests[setup]!;
      if (isOpen(place)) {
        if (told.has(to)) continue;
        told.add(to);
      }
      if (add(setup, setupMinutes(this.#problem, node, tests[setup]!))) return;
    }
    node.choices = choices;
  }

  #follow({ suspects, opened }: SetupOrNode, { setup }: SetupAndNode): SetupOrNode[] {
    const { mode, place } = this.#problem.tests[setup]!;
    const then = place < 0 ? opened : opened | (1 << place);
    const learnt: SetupOrNode[] = [];
    this.#learnFree(suspects, mode, then, learnt);
    const unasked = this.#unasked(suspects, learnt, mode, then);
    return unasked.length === 0 ? learnt : [this.#unlearnt(suspects, learnt, mode, then, unasked)];
  }

  /**
   * Choices that leave unasked what may be learnt for nothing. A cover comes off for a setup that
   * tells something; once all that is free is learnt that setup may tell nothing more, though its
   * cover, which another setup still needs, would come off now for less than by coming back.
   */
  #unasked(
    suspects: SetupAmbiguitySet,
    learnt: readonly SetupOrNode[],
    mode: number,
    opened: number,
  ): SetupAndNode[] {
    if (learnt.length === 1 && learnt[0]!.suspects === suspects) return [];
    const { weight, setups, places } = suspects;
    const { tests } = this.#problem;
    return setups.flatMap((setup) => {
      const test = tests[setup]!;
      const bit = test.place < 0 ? 0 : 1 << test.place;
      if ((bit & ~opened) === 0) return [];
      const isLost = learnt.some(
        ({ suspects: left }) => !left.setups.includes(setup) && (left.places & bit) !== 0,
      );
      if (!isLost) return [];
      const cost = setupMinutes(this.#problem, { mode, opened }, test) * weight;
      const after = (opened | bit) & places;
      const lower = cost + this.#sets.leastFrom(suspects, test.mode, after);
      return [{ setup, cost, lower, successors: null }];
    });
  }

  /** The node at which what is free is learnt, or left unasked. */
  #unlearnt(
    suspects: SetupAmbiguitySet,
    learnt: readonly SetupOrNode[],
    mode: number,
    opened: number,
    unasked: readonly SetupAndNode[],
  ): SetupOrNode {
    const open = opened & suspects.places;
    const key = -1 - this.#keyOf(mode, open);
    const known = suspects.nodes.get(key);
    if (known) return known;
    const node = this.#make(suspects, mode, open);
    const lower = learnt.reduce((sum, next) => sum + next.lower, 0);
    node.hasRelaxedBound = true;
    node.choices = [{ setup: -1, cost: 0, lower, successors: [...learnt] }, ...unasked];
    node.lower = Math.max(node.lower, leastOf(node.choices).lower);
    node.solved = unasked.length === 0 && learnt.every((next) => next.solved);
    suspects.nodes.set(key, node);
    return node;
  }

  /** Adds a node for each ambiguity set that is left once everything free has been learnt. */
  #learnFree(
    suspects: SetupAmbiguitySet,
    mode: number,
    opened: number,
    nodes: SetupOrNode[],
  ): void {
    const { tests } = this.#problem;
    this.#sets.survey(suspects);
    let codes: Uint16Array | null = null;
    let arity = 1;
    for (const setup of suspects.setups) {
      const test = tests[setup]!;
      if (test.mode !== mode) continue;
      if (test.place >= 0 && ((opened >> test.place) & 1) === 0) continue;
      codes ??= new Uint16Array(suspects.members.length);
      arity = refine(codes, arity, test.answers, suspects.members);
    }
    if (!codes) {
      nodes.push(this.#nodeAsItIs(suspects, mode, opened));
      return;
    }
    for (const part of partsOf(suspects.members, codes, arity)) {
      const next = this.#sets.of(part, suspects.setups);
      if (!next) continue;
      this.#sets.survey(next);
      nodes.push(this.#nodeAsItIs(next, mode, opened));
    }
  }

  /** The node of an ambiguity set about which something may be learnt for nothing. */
  #node(suspects: SetupAmbiguitySet, mode: number, opened: number): SetupOrNode {
    this.#sets.survey(suspects);
    const learnt: SetupOrNode[] = [];
    this.#learnFree(suspects, mode, opened, learnt);
    if (learnt.length === 1 && learnt[0]!.suspects === suspects) return learnt[0]!;
    const unasked = this.#unasked(suspects, learnt, mode, opened);
    return this.#unlearnt(suspects, learnt, mode, opened, unasked);
  }

  /** The node of an ambiguity set about which nothing more is learnt for nothing. */
  #nodeAsItIs(suspects: SetupAmbiguitySet, mode: number, opened: number): SetupOrNode {
    const open = opened & suspects.places;
    const key = this.#keyOf(mode, open);
    const known = suspects.nodes.get(key);
    if (known) return known;
    const node = this.#make(suspects, mode, open);
    suspects.nodes.set(key, node);
    return node;
  }

  #make(suspects: SetupAmbiguitySet, mode: number, opened: number): SetupOrNode {
    const lower = this.#sets.leastFrom(suspects, mode, opened);
    const hasRelaxedBound = this.#relaxed.length === 0;
    return { suspects, mode, opened, lower, solved: false, hasRelaxedBound, choices: null };
  }

  #keyOf(mode: number, opened: number): number {
    return opened * this.#problem.modeMinutes.length + mode;
  }
}
