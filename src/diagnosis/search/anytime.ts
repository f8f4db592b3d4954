import { greedy } from './greedy.ts';
import { promising } from './moves.ts';
import type { Move, State } from './state.ts';

/** Tests tried at each step, the most bits for their minutes first, time after time. */
const LOOKAHEADS = [6, 20, 6];
/** States expanded for one state of a tree when its turn comes. */
const EFFORT = 1000;
/** Bundles above which a state is not searched on its own. */
const LARGE = 80;

/**
 * Betters the tree known from a state, from the top down by lookahead and from the bottom up
 * by search, until some states more have been expanded. At each step the tests that promise
 * most are each followed by the greedy tree, and the one that comes out cheapest is kept;
 * whatever small is left below is searched.
 */
export function polish(root: State, budget: number): void {
  const { search } = root;
  const { meter } = search;
  const limit = meter.expanded + budget;
  greedy(root);
  for (const most of LOOKAHEADS) pass(root, most, limit);
}

function pass(root: State, most: number, limit: number): void {
  const { meter } = root.search;
  const seen = new Set<State>();
  better(root);

  function better(state: State): void {
    if (state.done || seen.has(state)) return;
    seen.add(state);
    for (const move of promising(state, most)) recost(state, move);
    for (const next of state.search.next(state, state.best!)) better(next);
    recost(state, state.best!);
    if (state.view.members.length > LARGE || meter.expanded >= limit) return;
    state.search.solve(state, Math.min(EFFORT, limit - meter.expanded));
  }
}

/** Takes a move as the best where the trees known behind it make it so. */
function recost(state: State, move: Move): void {
  let upper = move.cost;
  for (const next of state.search.next(state, move)) upper += next.upper;
  if (upper >= state.upper) return;
  state.upper = upper;
  state.best = move;
}
