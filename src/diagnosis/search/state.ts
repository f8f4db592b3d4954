import type { Search } from './exact.ts';
import type { Branching, View } from './view.ts';

/** Differences of cost below this are none. */
export const EQUAL = 1e-11;

/** Counts states expanded, over all searches that share it. */
export interface Meter {
  expanded: number;
}

/** Some bundles still open, where we stand, and what is known of the cost from here. */
export interface State {
  readonly search: Search;
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
