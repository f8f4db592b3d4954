import type { Rules, SearchProblem, SearchTest } from './problem.ts';

/** A test over bundles. */
export interface ReducedTest {
  /**
   * Indices in the problem it comes from, ascending: one, or several of one setup that cost
   * nothing. Whoever takes one of these may take the others too; their answers count as one.
   */
  readonly indices: readonly number[];
  readonly minutes: number;
  readonly mode: number;
  /** −1 for none. */
  readonly place: number;
  /** Answer of each bundle, numbered from 0 in order of appearance. */
  readonly answers: Uint16Array;
  /** How many different answers there are. */
  readonly arity: number;
}

/**
 * A problem without what cannot matter: faults that no test tells apart are one bundle (an
 * ambiguity group of testability analysis), and dominated tests are left out.
 */
export interface Reduced {
  readonly count: number;
  /** Faults of each bundle; the heaviest bundle first. */
  readonly members: readonly (readonly number[])[];
  /**
   * Probability of each bundle, a whole multiple of 2⁻⁴⁰: sums come out the same in any
   * order, and the same whatever power of two the weights were multiplied by.
   */
  readonly weights: Float64Array;
  /** Repair of each bundle; a bundle of several repairs counts as a repair of its own. */
  readonly repairs: Uint16Array;
  readonly tests: readonly ReducedTest[];
  /** Least minutes from mode to mode, by way of others where that is less. */
  readonly modeMinutes: readonly (readonly number[])[];
  readonly placeMinutes: readonly number[];
  /** Mode in which places are opened; −1 for any. */
  readonly openingMode: number;
  /** Most minutes that going by way of the opening mode adds to any change of mode. */
  readonly openingDetour: number;
  readonly rules: Rules | null;
  readonly mode: number;
  /** Places open at the start, by bit. */
  readonly opened: number;
}

const GRAIN = 2 ** 40;
const MOST_PLACES = 30;
const MOST_BUNDLES = 65_535;

/**
 * Merges faults with equal answers to all tests, and drops tests that split nothing or that
 * another dominates, which splits alike at no higher cost wherever they may be taken.
 *
 * @throws RangeError when a number is out of range; the message says which.
 */
export function reduce(problem: SearchProblem): Reduced {
  check(problem);
  const total = problem.faults.reduce((sum, fault) => sum + fault.weight, 0);
  const weightOf = (faults: readonly number[]) => {
    const weight = faults.reduce((sum, i) => sum + problem.faults[i]!.weight, 0);
    return Math.max(1, Math.round((weight / total) * GRAIN)) / GRAIN;
  };
  const bundles = groupBy(
    problem.faults.map((_, i) => i),
    (i) => problem.tests.map((test) => test.answers[i]).join(),
  ).sort((a, b) => weightOf(b) - weightOf(a));
  const weights = Float64Array.from(bundles, weightOf);
  const modeMinutes = closedModeMinutes(problem.modeMinutes);
  const tests = groupBy(
    problem.tests.flatMap((test, index) => {
      const { answers, arity } = numbered(bundles.map(([first]) => test.answers[first!]!));
      if (arity < 2) return [];
      const { minutes, mode, place } = test;
      return [{ indices: [index], minutes, mode, place, answers, arity }];
    }),
    (test) => test.answers.join(),
  ).flatMap((equal) => undominated(equal, modeMinutes, problem));
  return {
    count: bundles.length,
    members: bundles,
    weights,
    repairs: repairsOf(problem, bundles),
    tests: withFreeJoined(tests).sort((a, b) => a.indices[0]! - b.indices[0]!),
    modeMinutes,
    placeMinutes: problem.placeMinutes,
    openingMode: problem.openingMode ?? -1,
    openingDetour: detourBy(problem.openingMode, modeMinutes),
    rules: problem.rules ?? null,
    mode: problem.start.mode,
    opened: problem.start.opened.reduce((bits, place) => bits | (1 << place), 0),
  };
}

/** The tests, with those of one setup that cost nothing joined into one. */
function withFreeJoined(tests: readonly ReducedTest[]): ReducedTest[] {
  const free = tests.filter(({ minutes }) => minutes === 0);
  return [...tests.filter(({ minutes }) => minutes > 0), ...joined(free)];
}

/** Tests of one setup (mode and place) as one, for the minutes of the cheapest. */
export function joined(tests: readonly ReducedTest[]): ReducedTest[] {
  return groupBy(tests, ({ mode, place }) => `${mode} ${place}`).map((setup) => {
    const [first, ...others] = setup as [ReducedTest, ...ReducedTest[]];
    if (others.length === 0) return first;
    const minutes = Math.min(...setup.map((test) => test.minutes));
    const indices = setup.flatMap((test) => test.indices).sort((a, b) => a - b);
    const answers = first.answers.reduce<string[]>((all, _, bundle) => {
      all.push(setup.map((test) => test.answers[bundle]).join());
      return all;
    }, []);
    return { ...first, ...numbered(answers), minutes, indices };
  });
}

/** Values in groups of equal keys, both in order of first appearance. */
export function groupBy<T>(values: readonly T[], key: (value: T) => string): T[][] {
  return [...Map.groupBy(values, key).values()];
}

/** Numbers in place of values, from 0 in order of appearance; equal values get equal numbers. */
export function numbered(values: readonly (number | string)[]): {
  answers: Uint16Array;
  arity: number;
} {
  const codes = new Map<number | string, number>();
  const answers = Uint16Array.from(values, (value) => {
    const known = codes.get(value) ?? codes.size;
    codes.set(value, known);
    return known;
  });
  return { answers, arity: codes.size };
}

function repairsOf({ faults }: SearchProblem, bundles: readonly number[][]): Uint16Array {
  const names = bundles.map((members, bundle) => {
    const repairs = new Set(members.map((i) => faults[i]!.repair));
    return repairs.size === 1 ? `repair ${[...repairs][0]}` : `bundle ${bundle}`;
  });
  return numbered(names).answers;
}

function closedModeMinutes(given: SearchProblem['modeMinutes']): number[][] {
  const modes = given.map((_, i) => i);
  const minutes = modes.map((from) =>
    modes.map((to) => {
      const entry = given[from]!;
      if (from === to) return 0;
      return typeof entry === 'number' ? (given[to] as number) : entry[to]!;
    }),
  );
  for (const by of modes) {
    for (const from of modes) {
      for (const to of modes) {
        const around = minutes[from]![by]! + minutes[by]![to]!;
        if (around < minutes[from]![to]!) minutes[from]![to] = around;
      }
    }
  }
  return minutes;
}

function detourBy(mode: number | undefined, minutes: readonly (readonly number[])[]): number {
  if (mode === undefined) return 0;
  const detours = minutes.flatMap((row) =>
    row.map((direct, to) => row[mode]! + minutes[mode]![to]! - direct),
  );
  return Math.max(...detours);
}

/**
 * Of tests that split alike, those that no other dominates.
 *
 * `b` dominates `a` where it needs the same place (or none, where any mode will do to open one)
 * and, where there are rules, the same mode, and going on from its mode to `a`'s costs in all no
 * more than `a` itself, from whatever mode: what follows `a` may then follow `b` at no higher
 * cost.
 */
function undominated(
  equal: readonly ReducedTest[],
  modeMinutes: readonly (readonly number[])[],
  { openingMode, rules }: Pick<SearchProblem, 'openingMode' | 'rules'>,
): ReducedTest[] {
  const kept: ReducedTest[] = [];
  const dominates = (b: ReducedTest, a: ReducedTest) =>
    (b.place === a.place || (b.place === -1 && openingMode === undefined)) &&
    (b.mode === a.mode || !rules) &&
    modeMinutes.every(
      (from) =>
        from[b.mode]! + b.minutes + modeMinutes[b.mode]![a.mode]! <= from[a.mode]! + a.minutes,
    );
  for (const test of equal) {
    if (kept.some((other) => dominates(other, test))) continue;
    for (let i = kept.length - 1; i >= 0; i--) if (dominates(test, kept[i]!)) kept.splice(i, 1);
    kept.push(test);
  }
  return kept;
}

function check({
  faults,
  tests,
  modeMinutes,
  placeMinutes,
  openingMode,
  start,
}: SearchProblem): void {
  const modes = modeMinutes.length;
  const least = (what: string, got: number, limit: number) => {
    if (!(got >= limit) || got === Infinity) {
      throw new RangeError(`${what} is ${got}; give a finite number of at least ${limit}`);
    }
  };
  const index = (what: string, got: number, from: number, below: number) => {
    if (!Number.isInteger(got) || got < from || got >= below) {
      throw new RangeError(`${what} is ${got}; give a whole number from ${from} to ${below - 1}`);
    }
  };
  least('the number of faults', faults.length, 1);
  if (faults.length > MOST_BUNDLES) {
    throw new RangeError(`${faults.length} faults; give at most ${MOST_BUNDLES}`);
  }
  if (placeMinutes.length > MOST_PLACES) {
    throw new RangeError(
      `${placeMinutes.length} places; give at most ${MOST_PLACES}, joining those opened together`,
    );
  }
  for (const [i, { weight }] of faults.entries()) {
    least(`the weight of fault ${i}`, weight, Number.MIN_VALUE);
  }
  for (const [i, minutes] of placeMinutes.entries()) least(`the minutes of place ${i}`, minutes, 0);
  modeMinutes.forEach((row, i) => {
    for (const minutes of typeof row === 'number' ? [row] : row) {
      least(`a change of mode ${i}`, minutes, 0);
    }
    if (typeof row !== 'number' && row.length !== modes) {
      throw new RangeError(`row ${i} of the mode changes has ${row.length} numbers; give ${modes}`);
    }
  });
  index('the mode at the start', start.mode, 0, modes);
  if (openingMode !== undefined) index('the opening mode', openingMode, 0, modes);
  for (const place of start.opened) index('a place opened', place, 0, placeMinutes.length);
  for (const test of tests) checkTest(test);

  function checkTest({ id, minutes, mode, place, answers }: SearchTest): void {
    least(`the minutes of ${id}`, minutes, 0);
    index(`the mode of ${id}`, mode, 0, modes);
    index(`the place of ${id}`, place, -1, placeMinutes.length);
    if (answers.length !== faults.length) {
      throw new RangeError(
        `${id} has ${answers.length} answers; give one for each of the ${faults.length} faults`,
      );
    }
  }
}

/** What a test needs before it can be read. */
type Setup = Pick<ReducedTest, 'mode' | 'place'>;

/** Minutes to bring a setup about from a mode with its place closed. */
function openingMinutes(
  { modeMinutes, placeMinutes, openingMode }: Reduced,
  from: number,
  { mode, place }: Setup,
): number {
  const changes =
    openingMode < 0
      ? modeMinutes[from]![mode]!
      : modeMinutes[from]![openingMode]! + modeMinutes[openingMode]![mode]!;
  return changes + placeMinutes[place]!;
}

/** Minutes to bring a setup about from where one stands. */
export function setupMinutes(
  problem: Reduced,
  from: { readonly mode: number; readonly opened: number },
  setup: Setup,
): number {
  const { mode, place } = setup;
  return place < 0 || (from.opened >> place) & 1
    ? problem.modeMinutes[from.mode]![mode]!
    : openingMinutes(problem, from.mode, setup);
}

/**
 * Whether what costs nothing, and the way back from it nothing, may be done at once: no tree gets
 * dearer by it. It may where a cover is still to come off by way of the opening mode and two things
 * are to be told behind it: the test that would open it on the way may then tell nothing more, and
 * coming back for the other takes a detour.
 * @param alike indices of the tests that tell alike; one list for each way of telling.
 */
export function mayComeFirst(
  { openingDetour, tests }: Reduced,
  alike: readonly (readonly number[])[],
  opened: number,
): boolean {
  if (openingDetour === 0) return true;
  let met = 0;
  for (const indices of alike) {
    let places = 0;
    for (const index of indices) {
      const { place } = tests[index]!;
      if (place >= 0) places |= 1 << place;
    }
    if ((met & places & ~opened) !== 0) return false;
    met |= places;
  }
  return true;
}

/** Weight of some bundles taken together; null when one repair mends them all. */
export function weightOfSeveral(
  { repairs, weights }: Reduced,
  members: readonly number[],
): number | null {
  const first = repairs[members[0]!];
  let several = false;
  let weight = 0;
  for (const member of members) {
    if (repairs[member] !== first) several = true;
    weight += weights[member]!;
  }
  return several ? weight : null;
}
