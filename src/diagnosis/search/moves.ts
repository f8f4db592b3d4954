import type { Reduced } from './reduce.ts';
import type { Branching, Move, State } from './state.ts';

/** Where we stand. */
export interface Whereabouts {
  readonly mode: number;
  /** Places open, by bit. */
  readonly opened: number;
  readonly phase: number;
}

/** A test that may be taken from a state. */
export interface Candidate {
  readonly test: number;
  /** Minutes from there: change of mode, opening and reading. */
  readonly minutes: number;
}

/** Where a test leaves us. */
export function afterTest({ tests }: Reduced, from: Whereabouts, index: number): Whereabouts {
  const { mode, place, phase } = tests[index]!;
  return { mode, opened: place < 0 ? from.opened : from.opened | (1 << place), phase };
}

/** Tests of one branching that the phases allow from a state, by index. */
export function allowed(state: State, { tests }: Branching): Candidate[] {
  const { problem } = state.search;
  const latest = Math.max(state.view.lastPhase, state.phase);
  const candidates: Candidate[] = [];
  for (const test of tests) {
    const { phase } = problem.tests[test]!;
    if (phase < state.phase || phase > latest) continue;
    candidates.push({ test, minutes: minutesOf(problem, state, test) });
  }
  return candidates;
}

/**
 * Of the tests allowed those that none other replaces here: one that goes before in phase
 * and, with the way on to the other's mode and place, costs no more.
 */
export function worthTaking(state: State, branching: Branching): Candidate[] {
  const { tests, modeMinutes, placeMinutes } = state.search.problem;
  const kept: Candidate[] = [];
  const replaces = (b: Candidate, a: Candidate) => {
    const one = tests[b.test]!;
    const other = tests[a.test]!;
    const opens = other.place !== one.place && !isOpen(state, other.place);
    const onward = modeMinutes[one.mode]![other.mode]! + (opens ? placeMinutes[other.place]! : 0);
    return one.phase <= other.phase && b.minutes + onward <= a.minutes;
  };
  for (const candidate of allowed(state, branching)) {
    if (kept.some((other) => replaces(other, candidate))) continue;
    for (let i = kept.length - 1; i >= 0; i--) {
      if (replaces(candidate, kept[i]!)) kept.splice(i, 1);
    }
    kept.push(candidate);
  }
  return kept;
}

/**
 * The branchings that tell the most bits of the repairs for their minutes, each by the test
 * that takes least; the most first, and the first test of equals.
 */
export function promising(state: State, most: number): Move[] {
  const { view, search } = state;
  const found: { worth: number; candidate: Candidate; branching: Branching }[] = [];
  for (const branching of search.views.branchings(view)) {
    let candidate: Candidate | null = null;
    for (const one of allowed(state, branching)) {
      if (!candidate || one.minutes < candidate.minutes) candidate = one;
    }
    if (!candidate) continue;
    // The small terms rank tests that cost nothing, and those that tell only of answers.
    const worth = (search.views.bitsOf(view, branching) + 1e-9) / (candidate.minutes + 1e-6);
    found.push({ worth, candidate, branching });
  }
  found.sort((a, b) => b.worth - a.worth || a.candidate.test - b.candidate.test);
  return found.slice(0, most).map(({ candidate: { test, minutes }, branching }) => ({
    test,
    branching,
    cost: minutes * view.weight,
    readings: 0,
    where: -1,
    lower: 0,
    next: null,
  }));
}

function minutesOf(
  { tests, modeMinutes, placeMinutes }: Reduced,
  from: Whereabouts,
  index: number,
) {
  const { mode, place, minutes } = tests[index]!;
  const opening = isOpen(from, place) ? 0 : placeMinutes[place]!;
  return minutes + modeMinutes[from.mode]![mode]! + opening;
}

const isOpen = ({ opened }: Whereabouts, place: number) =>
  place < 0 || ((opened >> place) & 1) === 1;
