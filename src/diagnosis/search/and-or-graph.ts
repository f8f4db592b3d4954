import type { CodeAlphabet } from './reading-bound.ts';
import type { Reduced } from './reduce.ts';

/**
 * The graph that AO* searches: OR nodes, at which a test is chosen, and AND nodes, which are
 * tests with all their answers. An OR node is an ambiguity set together with the engineer's
 * standing: mode and open places.
 */

/** Costs that differ by no more than this count as equal; weighed minutes. */
export const TOLERANCE = 1e-11;

/** Counts nodes expanded, over all searches that share it. */
export interface Meter {
  expanded: number;
}

/** The search that a node belongs to, as far as its nodes use it. */
export interface AndOrSearch {
  readonly problem: Reduced;
  readonly meter: Meter;
  readonly sets: {
    branchings(suspects: AmbiguitySet): readonly Branching[];
    /** Bits that a branching tells of the repairs, weighed. */
    bitsOf(suspects: AmbiguitySet, branching: Branching): number;
  };
  /** The OR nodes that the answers of a test lead to, each with some tree. */
  successors(node: OrNode, choice: AndNode): OrNode[];
  /** The same nodes, which need not have a tree yet. */
  bareSuccessors(node: OrNode, choice: AndNode): OrNode[];
  /** Runs trials until the node is solved or `budget` more nodes are expanded. */
  solve(node: OrNode, budget: number): void;
  /** Goes one step further from a node that is not solved. */
  trial(node: OrNode): void;
}

/** One way in which tests split an ambiguity set, and the smaller sets that are left. */
export interface Branching {
  /** Indices of the tests that split so, ascending. */
  readonly tests: readonly number[];
  /** The parts of more than one repair. */
  readonly parts: readonly AmbiguitySet[];
  /** Share of the weight that it parts from the heaviest answer. */
  readonly told: number;
}

/**
 * The bundles that the answers so far leave open (ambiguity set: Pattipati and Alexandridis
 * 1990), of more than one repair; with what was worked out about them.
 */
export class AmbiguitySet {
  readonly members: readonly number[];
  readonly weight: number;
  /** Tests that may split it; once branchings are known, just those that do. */
  candidates: readonly number[];
  /** A set this is a part of, whose alphabets hold until its own are known. */
  parent: AmbiguitySet | null;
  alphabets: readonly CodeAlphabet[] | null = null;
  /** Bound on the readings; NaN until worked out. */
  readings = Number.NaN;
  branchings: readonly Branching[] | null = null;
  /** Places that its tests need, by bit. */
  places = 0;
  /** Bits that tell the repairs apart, weighed; NaN until worked out. */
  bits = Number.NaN;
  nodes: Map<number, OrNode> | null = null;

  constructor(
    members: readonly number[],
    weight: number,
    parent: AmbiguitySet | null,
    candidates: readonly number[],
  ) {
    this.members = members;
    this.weight = weight;
    this.parent = parent;
    this.candidates = candidates;
  }
}

/** An ambiguity set, the engineer's standing, and what is known of the cost from there. */
export interface OrNode {
  readonly search: AndOrSearch;
  readonly suspects: AmbiguitySet;
  readonly mode: number;
  /** Places open, by bit. */
  readonly opened: number;
  /** Lower bound on the setup cost from here: changes of mode and openings. */
  setup: number;
  /** No tree from here costs less; weighed, as all costs in a search are. */
  lower: number;
  /** Cost of the tree that `best` begins; infinite until one is known. */
  upper: number;
  best: AndNode | null;
  /** Tests that may yet be better than `best`; null until expanded. */
  choices: AndNode[] | null;
  /** Whether `upper` is the least cost. */
  solved: boolean;
  /** The rule that narrows the choice here; undefined until looked into. */
  rule: 'covers on' | 'open box' | null | undefined;
  /** Whether the setup search has been asked for a bound here. */
  hasSetupBound: boolean;
  /** Keys of the standings after a test for which it has been asked; null for none. */
  setupBoundAfter: Set<number> | null;
  /** One more than the trials that came here. */
  trials: number;
}

/** One test taken from an OR node, with all its answers. */
export interface AndNode {
  /** Index of the test in the search's problem. */
  readonly test: number;
  readonly branching: Branching;
  /** Setup cost and reading of the test itself, weighed. */
  readonly cost: number;
  /** Its reading, and a bound on the readings that follow. */
  readonly readings: number;
  /** Mode and open places after it, as one number. */
  readonly where: number;
  /** No tree that begins with it costs less. */
  lower: number;
  /** Nodes of the parts of several repairs; null until needed. */
  successors: OrNode[] | null;
}

/** Ends the search of a node: its known tree is the best. */
export function markSolved(node: OrNode): void {
  node.lower = node.upper;
  node.solved = true;
  node.choices = [];
}

/** The test of least lower bound, the first of equals. */
export function leastOf(choices: readonly AndNode[]): AndNode {
  let least = choices[0]!;
  for (const choice of choices) if (choice.lower < least.lower) least = choice;
  return least;
}

/**
 * Of the nodes that follow a test, the one to try next: the one whose bounds lie furthest apart
 * for the trials it has had, the first of equals. Null where all are solved.
 */
export function mostToGain(nodes: readonly OrNode[]): OrNode | null {
  let found: OrNode | null = null;
  let most = 0;
  for (const node of nodes) {
    const gain = (node.upper - node.lower) / node.trials;
    if (node.solved || (found && gain <= most)) continue;
    found = node;
    most = gain;
  }
  return found;
}
