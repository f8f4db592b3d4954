/**
 * Relaxations: problems with some of the costs struck out. Any tree of the problem is a tree of
 * its relaxation too and pays no more there, so the least cost of the relaxation is a lower bound.
 */

import { joined, type Reduced } from './reduce.ts';

/**
 * Openings only, readings and changes of mode free: opening a place tells at once, in every
 * mode, all that its tests tell.
 */
export function openingsOnly(problem: Reduced): Reduced {
  const tests = problem.tests.map((test) => ({ ...test, minutes: 0, mode: 0 }));
  const free = { modeMinutes: [[0]], mode: 0, openingMode: -1, openingDetour: 0 };
  return { ...problem, ...free, tests: joined(tests) };
}

/** Changes of mode only, readings and openings free. */
export function changesOnly(problem: Reduced): Reduced {
  const tests = problem.tests.map((test) => ({ ...test, minutes: 0, place: -1 }));
  return { ...problem, tests: joined(tests) };
}

/** Setup cost only, readings free: a setup tells at once all that its tests tell. */
export function setupsOnly(problem: Reduced): Reduced {
  return { ...problem, tests: joined(problem.tests.map((test) => ({ ...test, minutes: 0 }))) };
}
