import { groupBy, numbered, type Reduced, type ReducedTest } from './reduce.ts';

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

/**
 * Looks at one glance: whoever is in a mode before any reading learns all that the tests of
 * phase 0 tell there without a cover off, for the minutes of the cheapest. Null where that
 * joins nothing.
 */
export function glancesOnly(problem: Reduced): Reduced | null {
  const isLook = (test: ReducedTest) => test.phase === 0 && test.place < 0;
  const looks = problem.tests.filter(isLook);
  const glances = joined(looks);
  if (glances.length === looks.length || looks.length === problem.tests.length) return null;
  return { ...problem, tests: [...glances, ...problem.tests.filter((test) => !isLook(test))] };
}

/** Tests of one mode, place and phase as one, for the minutes of the cheapest. */
function joined(tests: readonly ReducedTest[]): ReducedTest[] {
  return groupBy(tests, ({ mode, place, phase }) => `${mode} ${place} ${phase}`).map((room) => {
    const [first, ...others] = room as [ReducedTest, ...ReducedTest[]];
    if (others.length === 0) return first;
    const minutes = Math.min(...room.map((test) => test.minutes));
    const answers = first.answers.reduce<string[]>((all, _, bundle) => {
      all.push(room.map((test) => test.answers[bundle]).join());
      return all;
    }, []);
    return { ...first, ...numbered(answers), minutes, index: -1 };
  });
}
