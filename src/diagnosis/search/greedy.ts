import { promising } from './moves.ts';
import type { State } from './state.ts';

/**
 * Gives a state and all that follow some tree: each test the one that tells the most bits of
 * the repairs for its cost, the first of equals.
 *
 * @returns the cost of the tree from the state.
 */
export function greedy(state: State): number {
  if (state.upper < Infinity) return state.upper;
  const chosen = state.moves?.[0] ?? promising(state, 1)[0]!;
  let upper = chosen.cost;
  for (const next of state.search.after(state, chosen)) upper += greedy(next);
  state.upper = upper;
  state.best = chosen;
  return upper;
}
