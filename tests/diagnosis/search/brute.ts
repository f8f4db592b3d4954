import type { SearchProblem, SearchTest } from '../../../src/diagnosis/search/index.ts';

/**
 * Least expected minutes by trying every test everywhere: no bound, no merging, no order of
 * moves. For a handful of faults and tests only.
 */
export function bruteMinutes(problem: SearchProblem): number {
  const { faults, placeMinutes, start } = problem;
  const tests = problem.rules ? freeAsOne(problem.tests) : problem.tests;
  const total = faults.reduce((sum, { weight }) => sum + weight, 0);
  const known = new Map<string, number>();

  const changes = modeChanges(problem);
  const isOpen = (opened: number, place: number) => place < 0 || ((opened >> place) & 1) === 1;
  const minutesOf = (test: SearchTest, mode: number, opened: number) => {
    const { openingMode: by } = problem;
    const { place, minutes } = test;
    if (isOpen(opened, place)) return minutes + changes[mode]![test.mode]!;
    const change =
      by === undefined
        ? changes[mode]![test.mode]!
        : changes[mode]![by]! + changes[by]![test.mode]!;
    return minutes + change + placeMinutes[place]!;
  };

  function least(open: readonly number[], mode: number, opened: number): number {
    if (open.every((fault) => faults[fault]!.repair === faults[open[0]!]!.repair)) return 0;
    const parting = tests.filter(({ answers }) =>
      open.some((f) => answers[f] !== answers[open[0]!]),
    );
    if (parting.length === 0) return 0;
    const key = `${open}|${mode}|${opened}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const weight = open.reduce((sum, fault) => sum + faults[fault]!.weight, 0) / total;
    let best = Infinity;
    for (const test of asRuled(parting, open, mode, opened)) {
      let cost = weight * minutesOf(test, mode, opened);
      const then = test.place >= 0 ? opened | (1 << test.place) : opened;
      for (const part of Map.groupBy(open, (fault) => test.answers[fault]!).values()) {
        cost += least(part, test.mode, then);
      }
      best = Math.min(best, cost);
    }
    known.set(key, best);
    return best;
  }

  /** The tests that the problem's rules let be made. */
  function asRuled(
    parting: readonly SearchTest[],
    open: readonly number[],
    mode: number,
    opened: number,
  ): readonly SearchTest[] {
    const { rules, openingMode } = problem;
    if (!rules) return parting;
    const told = ({ answers }: SearchTest) => {
      const weigh = (part: readonly number[]) =>
        part.reduce((sum, fault) => sum + faults[fault]!.weight, 0);
      const parts = [...Map.groupBy(open, (fault) => answers[fault]!).values()].map(weigh);
      return 1 - Math.max(...parts) / weigh(open);
    };
    if (mode !== openingMode) {
      const first = parting.filter(({ place }) => place < 0);
      const { minutes, share } = rules.coversOn;
      const due = first.some(
        (t) => told(t) >= share - 1e-9 && minutesOf(t, mode, opened) <= minutes,
      );
      return due ? first : parting;
    }
    const here = parting.filter(
      (test) => test.place >= 0 && isOpen(opened, test.place) && test.mode === mode,
    );
    const { minutes, share } = rules.openBox;
    return here.some((t) => t.minutes <= minutes && told(t) >= share * t.minutes - 1e-9)
      ? here
      : parting;
  }

  return least(
    faults.map((_, fault) => fault),
    start.mode,
    start.opened.reduce((bits, place) => bits | (1 << place), 0),
  );
}

/** Tests of one setup that cost nothing are one act: rules come between acts. */
function freeAsOne(tests: readonly SearchTest[]): SearchTest[] {
  const free = tests.filter(({ minutes }) => minutes === 0);
  const setups = Map.groupBy(free, ({ mode, place }) => `${mode} ${place}`);
  const joined = [...setups.values()].map((own): SearchTest => {
    const told = Array.from(own[0]!.answers, (_, f) => own.map(({ answers }) => answers[f]).join());
    const codes = [...new Set(told)];
    return { ...own[0]!, answers: told.map((answers) => codes.indexOf(answers)) };
  });
  return [...tests.filter(({ minutes }) => minutes > 0), ...joined];
}

/** Least minutes from each mode to each. */
const modeChanges = (problem: SearchProblem): number[][] =>
  problem.modeMinutes.map((_, from) =>
    problem.modeMinutes.map((_, to) => changeMinutes(problem, from, to)),
  );

/** Least minutes from mode to mode over every path that meets no mode twice. */
function changeMinutes({ modeMinutes }: SearchProblem, from: number, to: number): number {
  const direct = (a: number, b: number) => {
    const row = modeMinutes[a]!;
    return typeof row === 'number' ? (modeMinutes[b] as number) : row[b]!;
  };
  const least = (at: number, met: readonly number[]): number => {
    if (at === to) return 0;
    let best = direct(at, to);
    for (const by of modeMinutes.keys()) {
      if (!met.includes(by)) best = Math.min(best, direct(at, by) + least(by, [...met, by]));
    }
    return best;
  };
  return least(from, [from]);
}
