import { joined, type Reduced } from './reduce.ts';

/**
 * Openings only: whoever opens a place learns at once, in every mode and for nothing, all
 * that its tests of one phase tell. A tree of the problem, less its readings and changes of
 * mode, is a tree here, so the least cost here is no more than what that tree pays to open.
 */
export function openingsOnly(problem: Reduced): Reduced {
  const tests = problem.tests.map((test) => ({ ...test, minutes: 0, mode: 0 }));
  return { ...problem, tests: joined(tests), modeMinutes: [[0]], mode: 0 };
}

/** Changes of mode only: as {@link openingsOnly}, with every place open and readings free. */
export function changesOnly(problem: Reduced): Reduced {
  const tests = problem.tests.map((test) => ({ ...test, minutes: 0, place: -1 }));
  return { ...problem, tests: joined(tests) };
}

/**
 * Openings and changes of mode: whoever stands in a mode with a place open learns for
 * nothing all that this phase's tests tell there. The least cost here is no more than what
 * any tree of the problem pays beside its readings.
 */
export function entriesOnly(problem: Reduced): Reduced {
  return { ...problem, tests: joined(problem.tests.map((test) => ({ ...test, minutes: 0 }))) };
}
