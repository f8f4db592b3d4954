import type { SearchProblem } from '../../../src/diagnosis/search/index.ts';

/**
 * Least expected minutes by trying every test everywhere: no bound, no merging, no order of
 * moves. For a handful of faults and tests only.
 */
export function bruteMinutes(problem: SearchProblem): number {
  const { faults, tests, placeMinutes, start } = problem;
  const total = faults.reduce((sum, { weight }) => sum + weight, 0);
  const known = new Map<string, number>();

  function least(open: readonly number[], mode: number, opened: number, phase: number): number {
    if (open.every((fault) => faults[fault]!.repair === faults[open[0]!]!.repair)) return 0;
    const parting = tests.filter(({ answers }) =>
      open.some((f) => answers[f] !== answers[open[0]!]),
    );
    if (parting.length === 0) return 0;
    const key = `${open}|${mode}|${opened}|${phase}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const weight = open.reduce((sum, fault) => sum + faults[fault]!.weight, 0) / total;
    let best = Infinity;
    for (const test of parting) {
      if ((test.phase ?? 0) < phase) continue;
      const opens = test.place >= 0 && !((opened >> test.place) & 1);
      let cost =
        weight *
        (test.minutes +
          changeMinutes(problem, mode, test.mode) +
          (opens ? placeMinutes[test.place]! : 0));
      const then = test.place >= 0 ? opened | (1 << test.place) : opened;
      for (const part of Map.groupBy(open, (fault) => test.answers[fault]!).values()) {
        cost += least(part, test.mode, then, test.phase ?? 0);
      }
      best = Math.min(best, cost);
    }
    known.set(key, best);
    return best;
  }

  return least(
    faults.map((_, fault) => fault),
    start.mode,
    start.opened.reduce((bits, place) => bits | (1 << place), 0),
    0,
  );
}

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
