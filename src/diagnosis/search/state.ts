import type { Reach } from './readings.ts';
import type { Reduced } from './reduce.ts';
import type { Split } from './splits.ts';

/** Differences of cost below this are none. */
export const EQUAL = 1e-11;

/** Counts states expanded, over all searches that share it. */
export interface Meter {
  expanded: number;
}

/** What a state asks of the search it belongs to. */
export interface StateSearch {
  readonly problem: Reduced;
  readonly meter: Meter;
  readonly views: {
    branchings(view: View): readonly Branching[];
    /** Bits that a branching tells of the repairs, weighed. */
    bitsOf(view: View, branching: Branching): number;
  };
  /** States that the answers of a move lead to, each with some tree. */
  next(state: State, move: Move): State[];
  /** The same, with or without a tree. */
  after(state: State, move: Move): State[];
  /** Runs trials until the state is solved or `budget` more states are expanded. */
  solve(state: State, budget: number): void;
  trial(state: State): void;
}

/** A way to split some bundles, with what is left to do in its parts. */
export interface Branching {
  /** Indices of the tests that split so, ascending. */
  readonly tests: readonly number[];
  /** The parts of more than one repair. */
  readonly parts: View[];
}

/** Some bundles of more than one repair, as one search sees them. */
export class View {
  readonly members: readonly number[];
  readonly weight: number;
  /** The name under which it is kept; empty until it is. */
  key = '';
  /** Tests that may split it: exact once branchings are known. */
  candidates: readonly number[];
  /** The view this is part of; it knows how far tests reach until this one does. */
  parent: View | null;
  reaches: readonly Reach[] | null = null;
  /** Bound on the readings by phase, as far as known. */
  readings: number[] | null = null;
  splits: readonly Split[] | null = null;
  branchings: readonly Branching[] | null = null;
  /** Places that its tests need, by bit. */
  places = 0;
  /** Phases that its tests are in, ascending. */
  phases: readonly number[] = [];
  /** Latest phase whose tests, with later ones, tell all its repairs apart. */
  lastPhase = 0;
  /** Bits that tell the repairs apart, weighed; NaN until asked for. */
  bits = Number.NaN;
  states: Map<number, State> | null = null;

  constructor(
    members: readonly number[],
    weight: number,
    parent: View | null,
    candidates: readonly number[],
  ) {
    this.members = members;
    this.weight = weight;
    this.parent = parent;
    this.candidates = candidates;
  }
}

/** Some bundles still open, where we stand, and what is known of the cost from here. */
export interface State {
  readonly search: StateSearch;
  readonly view: View;
  readonly mode: number;
  /** Places open, by bit. */
  readonly opened: number;
  readonly phase: number;
  /** Bound on the changes of mode and openings from here. */
  entries: number;
  /** No tree from here costs less; weighed, as all costs in a search are. */
  lower: number;
  /** Cost of the tree that `best` begins; infinite until one is known. */
  upper: number;
  best: Move | null;
  /** Tests that may yet be better than `best`; null until expanded. */
  moves: Move[] | null;
  /** Whether `upper` is the least cost. */
  done: boolean;
  /** Whether the simpler searches have been asked for a bound. */
  helped: boolean;
  /** Keys of the whereabouts after a move for which they have been asked. */
  asked: Set<number> | null;
  /** Trials that came to it, one more. */
  trials: number;
}

/** One test from a state. */
export interface Move {
  /** Index of the test in the search's problem. */
  readonly test: number;
  readonly branching: Branching;
  /** Cost of the test itself. */
  readonly cost: number;
  /** Its reading, and a bound on the readings that follow. */
  readonly readings: number;
  /** Mode, open places and phase after it, as one number. */
  readonly where: number;
  /** No tree that begins with it costs less. */
  lower: number;
  /** States of the parts of several repairs; null until needed. */
  next: State[] | null;
}

/** Ends the search of a state: its tree is the best. */
export function settle(state: State): void {
  state.lower = state.upper;
  state.done = true;
  state.moves = [];
}

/** The move of least bound, the first of equals. */
export function leastOf(moves: readonly Move[]): Move {
  let least = moves[0]!;
  for (const move of moves) if (move.lower < least.lower) least = move;
  return least;
}

/**
 * Of the states behind a move the one to try next: the one with the most between its bounds
 * for the trials it has had, the first of equals. Null where all are solved.
 */
export function mostToGain(states: readonly State[]): State | null {
  let found: State | null = null;
  let most = 0;
  for (const state of states) {
    const gain = (state.upper - state.lower) / state.trials;
    if (state.done || (found && gain <= most)) continue;
    found = state;
    most = gain;
  }
  return found;
}
