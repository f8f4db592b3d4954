import { AmbiguitySets } from './ambiguity-sets.ts';
import {
  type AmbiguitySet,
  type AndNode,
  type AndOrSearch,
  leastOf,
  type Meter,
  markSolved,
  mostToGain,
  type OrNode,
  TOLERANCE,
} from './and-or-graph.ts';
import { afterTest, undominatedFrom } from './candidates.ts';
import { mayComeFirst, type Reduced } from './reduce.ts';
import { greedy } from './rollout.ts';
import type { SetupSearch } from './setup-search.ts';

/**
 * AO*: the tree of tests of least expected minutes, found best first in the graph of OR nodes
 * (choose a test) and AND nodes (follow each of its answers), each held once.
 *
 * Every OR node keeps a lower bound and the cost of a known tree. A trial follows the test of
 * least lower bound, then the answer whose two bounds lie furthest apart for the trials it has
 * had, so that one hard answer does not keep the others waiting. At a node not yet expanded it
 * expands that node and carries the bounds back up. A test whose lower bound reaches the cost
 * of a known tree is dropped; when none is left, or the bounds meet, the tree is optimal.
 *
 * Sources: Martelli and Montanari, "Additive AND/OR graphs" (1973; from memory); on test
 * sequencing Pattipati and Alexandridis, IEEE Trans. SMC 20(4), 1990.
 */
export class AoStar implements AndOrSearch {
  readonly problem: Reduced;
  readonly sets: AmbiguitySets;
  readonly meter: Meter;
  readonly #setupSearch: SetupSearch;
  readonly #effort: number;

  /**
   * @param setupSearch bounds what the tree pays beside its readings.
   * @param effort nodes that it may expand each time it is asked.
   */
  constructor(problem: Reduced, meter: Meter, setupSearch: SetupSearch, effort: number) {
    this.problem = problem;
    this.sets = new AmbiguitySets(problem);
    this.meter = meter;
    this.#setupSearch = setupSearch;
    this.#effort = effort;
  }

  /** The OR node of some bundles; null when they share one repair. */
  node(members: readonly number[], mode: number, opened: number): OrNode | null {
    const suspects = this.sets.of(members);
    return suspects && this.#nodeOf(suspects, mode, opened);
  }

  /** Runs trials until the node is solved or `budget` more nodes are expanded. */
  solve(node: OrNode, budget: number): void {
    const limit = this.meter.expanded + budget;
    this.#giveTree(node);
    while (!node.solved && this.meter.expanded < limit) node.search.trial(node);
  }

  trial(node: OrNode): void {
    if (!node.choices) {
      if (!node.hasSetupBound && this.#raiseBySetup(node)) return;
      this.#expand(node);
      this.#backUp(node);
      return;
    }
    const choice = leastOf(node.choices);
    if (!choice.successors && this.#raiseBySetupAfter(node, choice)) {
      this.#backUp(node);
      return;
    }
    const known = choice.successors !== null;
    const next = this.successors(node, choice);
    if (known) {
      const one = mostToGain(next);
      if (one) {
        one.trials++;
        one.search.trial(one);
      }
    }
    this.#backUp(node);
  }

  /** The OR nodes that the answers of a test lead to, each with some tree. */
  successors(node: OrNode, choice: AndNode): OrNode[] {
    if (choice.successors) return choice.successors;
    choice.successors = this.bareSuccessors(node, choice);
    for (const next of choice.successors) this.#giveTree(next);
    return choice.successors;
  }

  /** The same nodes, which need not have a tree yet. */
  bareSuccessors(node: OrNode, { test, branching }: AndNode): OrNode[] {
    const { mode, opened } = afterTest(this.problem, node, test);
    return branching.parts.map((part) => this.#nodeOf(part, mode, opened));
  }

  #giveTree(node: OrNode): void {
    if (node.upper < Infinity) return;
    greedy(node);
    if (node.lower >= node.upper - TOLERANCE) markSolved(node);
  }

  #nodeOf(suspects: AmbiguitySet, mode: number, opened: number): OrNode {
    const given = this.#keyOf(mode, opened);
    suspects.nodes ??= new Map();
    const known = suspects.nodes.get(given);
    if (known) return known;
    this.sets.branchings(suspects);
    const open = opened & suspects.places;
    const key = this.#keyOf(mode, open);
    const node = suspects.nodes.get(key) ?? this.#make(suspects, mode, open);
    suspects.nodes.set(key, node);
    suspects.nodes.set(given, node);
    return node;
  }

  #make(suspects: AmbiguitySet, mode: number, opened: number): OrNode {
    const readings = this.sets.readings(suspects);
    const setup = this.sets.setupBound.least(suspects.members, suspects.weight, mode, opened);
    return {
      search: this,
      suspects,
      mode,
      opened,
      setup,
      lower: readings + setup,
      upper: Infinity,
      best: null,
      choices: null,
      solved: false,
      rule: undefined,
      hasSetupBound: false,
      setupBoundAfter: null,
      trials: 1,
    };
  }

  #keyOf(mode: number, opened: number): number {
    return opened * this.problem.modeMinutes.length + mode;
  }

  /** Asks the setup search for a bound; returns whether that raised the lower bound. */
  #raiseBySetup(node: OrNode): boolean {
    const { suspects, mode, opened } = node;
    node.hasSetupBound = true;
    node.setup = Math.max(node.setup, this.#setupBound(suspects, mode, opened));
    const lower = node.setup + this.sets.readings(suspects);
    if (lower <= node.lower + TOLERANCE) return false;
    node.lower = Math.min(lower, node.upper);
    if (node.lower >= node.upper - TOLERANCE) markSolved(node);
    return true;
  }

  /** Bound on the setup cost, by the setup search. */
  #setupBound({ members }: AmbiguitySet, mode: number, opened: number): number {
    return this.#setupSearch.bound(members, mode, opened, this.#effort);
  }

  /**
   * Asks the setup search what setup cost remains after a test, for all suspects together: it
   * takes all tests of one setup to be read at once, so its answer is the same for every test
   * that leaves the engineer with this setup. Raises the lower bounds of all of these.
   *
   * @returns false where that was done before.
   */
  #raiseBySetupAfter(node: OrNode, { test, where }: AndNode): boolean {
    node.setupBoundAfter ??= new Set();
    if (node.setupBoundAfter.has(where)) return false;
    node.setupBoundAfter.add(where);
    const { mode, opened } = afterTest(this.problem, node, test);
    const left = this.#setupBound(node.suspects, mode, opened);
    for (const choice of node.choices!) {
      if (choice.where !== where || choice.successors) continue;
      const reading = this.problem.tests[choice.test]!.minutes * node.suspects.weight;
      const setup = choice.cost - reading;
      choice.lower = Math.max(choice.lower, choice.readings + setup + left);
    }
    return true;
  }

  #expand(node: OrNode): void {
    this.meter.expanded++;
    const { tests, modeMinutes, rules } = this.problem;
    const { suspects } = node;
    const choices: AndNode[] = [];
    const branchings = this.sets.branchings(suspects);
    // Where there are rules a free test may cost: they go by what is left and where one stands.
    const takesFree =
      !rules &&
      mayComeFirst(
        this.problem,
        branchings.map((branching) => branching.tests),
        node.opened,
      );
    for (const branching of branchings) {
      for (const { test, minutes } of undominatedFrom(node, branching)) {
        const cost = minutes * suspects.weight;
        const after = afterTest(this.problem, node, test);
        const isFree = takesFree && minutes === 0 && modeMinutes[after.mode]![node.mode] === 0;
        const where = this.#keyOf(after.mode, after.opened);
        let readings = tests[test]!.minutes * suspects.weight;
        for (const part of branching.parts) readings += this.sets.readings(part);
        const lower = readings + node.setup;
        const choice: AndNode = { test, branching, cost, readings, where, lower, successors: null };
        if (isFree) {
          node.choices = [choice];
          return;
        }
        if (lower < node.upper - TOLERANCE) choices.push(choice);
      }
    }
    node.choices = choices;
  }

  #backUp(node: OrNode): void {
    const choices = node.choices!;
    let least = Infinity;
    for (const choice of choices) {
      if (choice.successors) {
        let lower = choice.cost;
        let upper = choice.cost;
        for (const next of choice.successors) {
          lower += next.lower;
          upper += next.upper;
        }
        choice.lower = lower;
        if (upper < node.upper - TOLERANCE) {
          node.upper = upper;
          node.best = choice;
        }
      }
      if (choice.lower < least) least = choice.lower;
    }
    node.lower = Math.max(node.lower, Math.min(least, node.upper));
    if (node.lower >= node.upper - TOLERANCE) {
      markSolved(node);
      return;
    }
    let kept = 0;
    for (const choice of choices) {
      if (choice.lower < node.upper - TOLERANCE) choices[kept++] = choice;
    }
    choices.length = kept;
  }
}
