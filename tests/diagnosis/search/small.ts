import type { SearchProblem } from '../../../src/diagnosis/search/index.ts';
import type { Random } from '../../support/random.ts';

/**
 * A small problem at random: one to three modes, up to two places, opened in one of the modes or
 * in any, rules or none, repairs that several faults share, faults that no test tells apart, tests of up to four answers, tests
 * and changes that cost nothing.
 * @param times how many times as many faults and tests: from 2, more than can be tried out.
 */
export function smallProblem(from: Random, times = 1): SearchProblem {
  const faults = 2 + from.below(6 * times);
  const modes = 1 + from.below(3);
  const places = from.below(3);
  const ruled = from.below(3) === 0;
  const repairs = 1 + from.below(faults);
  const answers = 2 + from.below(3);
  const minutes = () => from.pick([0, 0.1, 0.5, 0.5, 1, 2, 3.5]);
  const pattern = Array.from({ length: faults }, (_, i) =>
    from.below(4) === 0 ? from.below(i + 1) : i,
  );
  return {
    faults: pattern.map(() => ({ weight: from.spread(0.01, 10), repair: from.below(repairs) })),
    tests: Array.from({ length: 2 + from.below(6 * times) }, (_, t) => {
      const given = pattern.map(() => from.below(answers));
      return {
        id: `t${t}`,
        minutes: ruled ? Math.max(0.1, minutes()) : minutes(),
        mode: from.below(modes),
        place: from.below(places + 1) - 1,
        answers: pattern.map((alike) => given[alike]!),
      };
    }),
    modeMinutes:
      from.below(2) === 0
        ? Array.from({ length: modes }, minutes)
        : Array.from({ length: modes }, () => Array.from({ length: modes }, minutes)),
    placeMinutes: Array.from({ length: places }, minutes),
    ...(from.below(2) === 0 || ruled ? { openingMode: from.below(modes) } : {}),
    ...(ruled && {
      rules: {
        coversOn: { minutes: 2, share: 0.1 },
        openBox: { minutes: 1, share: 0.1 },
      },
    }),
    start: { mode: from.below(modes), opened: places > 0 && from.below(3) === 0 ? [0] : [] },
  };
}
