import type { SearchProblem } from '../../../src/diagnosis/search/index.ts';

/** Worth of a test that parts some weights; the test of most worth is taken. */
export type Worth = (parts: readonly (readonly number[])[], minutes: number) => number;

/** Bits told for each minute. */
export const bitsPerMinute: Worth = (parts, minutes) => {
  const shares = parts.map((part) => part.reduce((sum, weight) => sum + weight, 0));
  const total = shares.reduce((sum, share) => sum + share, 0);
  return (
    shares.reduce((bits, share) => bits - (share / total) * Math.log2(share / total), 0) / minutes
  );
};

/** How evenly a test halves the number of faults, whatever they weigh. */
export const evenCount: Worth = (parts) => -Math.max(...parts.map((part) => part.length));

/**
 * Expected minutes of whoever always takes the test of most worth, the first of equals: one
 * mode, repairs all different, places opened as needed.
 */
export function greedyMinutes(problem: SearchProblem, worth: Worth): number {
  const { faults, tests, placeMinutes } = problem;
  const total = faults.reduce((sum, { weight }) => sum + weight, 0);
  const from = (open: readonly number[], opened: readonly number[]): number => {
    if (open.length === 1) return 0;
    let best = -Infinity;
    let cost = 0;
    let next: { parts: number[][]; place: number } | null = null;
    for (const { answers, place, minutes: reading } of tests) {
      const parts = [...Map.groupBy(open, (fault) => answers[fault]!).values()];
      if (parts.length === 1) continue;
      const minutes = reading + (place >= 0 && !opened.includes(place) ? placeMinutes[place]! : 0);
      const value = worth(
        parts.map((part) => part.map((f) => faults[f]!.weight)),
        minutes,
      );
      if (value <= best) continue;
      best = value;
      cost = minutes;
      next = { parts, place };
    }
    const weight = open.reduce((sum, fault) => sum + faults[fault]!.weight, 0) / total;
    const then = [...opened, next!.place];
    return next!.parts.reduce((sum, part) => sum + from(part, then), weight * cost);
  };
  return from(
    faults.map((_, fault) => fault),
    [],
  );
}
