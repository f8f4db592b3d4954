import { greedy } from './greedy.ts';
import { afterTest, worthTaking } from './moves.ts';
import type { Reduced } from './reduce.ts';
import type { RoomSearch } from './rooms.ts';
import {
  EQUAL,
  leastOf,
  type Meter,
  type Move,
  mostToGain,
  type State,
  type StateSearch,
  settle,
  type View,
} from './state.ts';
import { Views } from './view.ts';

/**
 * Best-first search of AND/OR states, each held once.
 *
 * Every state keeps a lower bound and the cost of a tree. A trial follows the test with the
 * least lower bound, and of its answers the one with the most between its bounds for the
 * trials it has had (one that resists keeps the others waiting no longer than it gains), to a
 * state not yet expanded; it expands this and carries the bounds back. Tests whose lower bound
 * reaches the cost of a known tree are dropped: when none is left, or the bounds meet, the
 * tree is optimal.
 */
export class Search implements StateSearch {
  readonly problem: Reduced;
  readonly views: Views;
  readonly meter: Meter;
  readonly #rooms: RoomSearch;
  readonly #effort: number;

  /**
   * @param rooms bounds this one's cost beside its readings.
   * @param effort rooms that it may expand each time it is asked.
   */
  constructor(problem: Reduced, meter: Meter, rooms: RoomSearch, effort: number) {
    this.problem = problem;
    this.views = new Views(problem);
    this.meter = meter;
    this.#rooms = rooms;
    this.#effort = effort;
  }

  /** The state of some bundles; null when they share one repair. */
  state(members: readonly number[], mode: number, opened: number, phase: number): State | null {
    const view = this.views.of(members);
    return view && this.#stateOf(view, mode, opened, phase);
  }

  /** Runs trials until the state is solved or `budget` more states are expanded. */
  solve(state: State, budget: number): void {
    const limit = this.meter.expanded + budget;
    this.#begin(state);
    while (!state.done && this.meter.expanded < limit) state.search.trial(state);
  }

  trial(state: State): void {
    if (state.done) return;
    if (!state.moves) {
      if (!state.helped && this.#help(state)) return;
      this.#expand(state);
      this.#backUp(state);
      return;
    }
    const move = leastOf(state.moves);
    if (!move.next && this.#askAfter(state, move)) {
      this.#backUp(state);
      return;
    }
    const known = move.next !== null;
    const next = this.next(state, move);
    if (known) {
      const one = mostToGain(next);
      if (one) {
        one.trials++;
        one.search.trial(one);
      }
    }
    this.#backUp(state);
  }

  /** States that the answers of a move lead to, each with some tree. */
  next(state: State, move: Move): State[] {
    if (move.next) return move.next;
    move.next = this.after(state, move);
    for (const next of move.next) this.#begin(next);
    return move.next;
  }

  /** As {@link next}, though they may have no tree yet. */
  after(state: State, { test, branching }: Move): State[] {
    const { mode, opened, phase } = afterTest(this.problem, state, test);
    const { parts } = branching;
    return parts.map((part, i) => {
      const view = this.views.kept(part);
      parts[i] = view;
      return this.#stateOf(view, mode, opened, phase);
    });
  }

  #begin(state: State): void {
    if (state.upper < Infinity) return;
    greedy(state);
    if (state.lower >= state.upper - EQUAL) settle(state);
  }

  #stateOf(view: View, mode: number, opened: number, phase: number): State {
    const given = this.#keyOf(mode, opened, phase);
    view.states ??= new Map();
    const known = view.states.get(given);
    if (known) return known;
    this.views.branchings(view);
    const open = opened & view.places;
    const from = view.phases.find((one) => one >= phase) ?? phase;
    const key = this.#keyOf(mode, open, from);
    const state = view.states.get(key) ?? this.#make(view, mode, open, from);
    view.states.set(key, state);
    view.states.set(given, state);
    return state;
  }

  #make(view: View, mode: number, opened: number, phase: number): State {
    const readings = this.views.readings(view, phase);
    const entries = this.views.entries.least(view.members, view.weight, mode, opened, phase);
    return {
      search: this,
      view,
      mode,
      opened,
      phase,
      entries,
      lower: readings + entries,
      upper: Infinity,
      best: null,
      moves: null,
      done: false,
      helped: false,
      asked: null,
      trials: 1,
    };
  }

  #keyOf(mode: number, opened: number, phase: number): number {
    return (opened * this.problem.modeMinutes.length + mode) * this.views.phases + phase;
  }

  /** Asks the search for rooms; whether that raised the lower bound. */
  #help(state: State): boolean {
    const { view, mode, opened, phase } = state;
    state.helped = true;
    state.entries = Math.max(state.entries, this.#entries(view, mode, opened, phase));
    const lower = state.entries + this.views.readings(view, phase);
    if (lower <= state.lower + EQUAL) return false;
    state.lower = Math.min(lower, state.upper);
    if (state.lower >= state.upper - EQUAL) settle(state);
    return true;
  }

  /** Bound on changes of mode and openings by the simpler search. */
  #entries({ members }: View, mode: number, opened: number, phase: number): number {
    return this.#rooms.bound(members, mode, opened, phase, this.#effort);
  }

  /**
   * Asks it what entries remain once a move has brought us where it does, for all
   * bundles together: to it the answers of all tests taken there are one. Raises the
   * bounds of all moves that lead there; whether that was still to do.
   */
  #askAfter(state: State, { test, where }: Move): boolean {
    state.asked ??= new Set();
    if (state.asked.has(where)) return false;
    state.asked.add(where);
    const { mode, opened, phase } = afterTest(this.problem, state, test);
    const left = this.#entries(state.view, mode, opened, phase);
    for (const move of state.moves!) {
      if (move.where !== where || move.next) continue;
      const reading = this.problem.tests[move.test]!.minutes * state.view.weight;
      const entry = move.cost - reading;
      move.lower = Math.max(move.lower, move.readings + entry + left);
    }
    return true;
  }

  #expand(state: State): void {
    this.meter.expanded++;
    const { tests, modeMinutes } = this.problem;
    const { view, phase } = state;
    const moves: Move[] = [];
    for (const branching of this.views.branchings(view)) {
      for (const { test, minutes } of worthTaking(state, branching)) {
        const cost = minutes * view.weight;
        const after = afterTest(this.problem, state, test);
        // Free, and the way back too: it may as well be taken now.
        const isFree =
          minutes === 0 && after.phase === phase && modeMinutes[after.mode]![state.mode] === 0;
        const where = this.#keyOf(after.mode, after.opened, after.phase);
        let readings = tests[test]!.minutes * view.weight;
        for (const part of branching.parts) readings += this.views.readings(part, after.phase);
        const lower = readings + state.entries;
        const move: Move = { test, branching, cost, readings, where, lower, next: null };
        if (isFree) {
          state.moves = [move];
          return;
        }
        if (lower < state.upper - EQUAL) moves.push(move);
      }
    }
    state.moves = moves;
  }

  #backUp(state: State): void {
    const moves = state.moves!;
    let least = Infinity;
    for (const move of moves) {
      if (move.next) {
        let lower = move.cost;
        let upper = move.cost;
        for (const next of move.next) {
          lower += next.lower;
          upper += next.upper;
        }
        move.lower = lower;
        if (upper < state.upper - EQUAL) {
          state.upper = upper;
          state.best = move;
        }
      }
      if (move.lower < least) least = move.lower;
    }
    state.lower = Math.max(state.lower, Math.min(least, state.upper));
    if (state.lower >= state.upper - EQUAL) {
      settle(state);
      return;
    }
    let kept = 0;
    for (const move of moves) {
      if (move.lower < state.upper - EQUAL) moves[kept++] = move;
    }
    moves.length = kept;
  }
}
