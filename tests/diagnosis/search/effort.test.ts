import { describe, expect, it } from 'vitest';
import { type SearchProblem, solveSequence } from '../../../src/diagnosis/search/index.ts';
import { random } from '../../support/random.ts';
import { smallProblem } from './small.ts';
import { type TradeSize, tradeProblem } from './trade.ts';

/** States expanded, expected minutes of the tree, and the bound. */
type Reached = readonly [expanded: number, minutes: number, bound: number];

const trade = (size: TradeSize) => () => tradeProblem(size);
const drawn = (seed: number) => () => smallProblem(random(seed), 4);

/**
 * What the search came to within 0, 40 and 2,000 states when this was last written. Whoever
 * betters it writes the better figures here; a bound that is weaker, a worse first tree or a
 * state more shows that something of it has gone, though every tree may still be right.
 */
const REACHED: readonly (readonly [string, () => SearchProblem, Reached, Reached, Reached])[] = [
  [
    'a trade of 1 zone, 0 exchanges, seed 1',
    trade({ zones: 1, exchanges: 0, seed: 1 }),
    [0, 6.372621290234, 4.087995449345],
    [40, 6.372621290234, 5.186243378375],
    [371, 6.015181782947, 6.015181782947],
  ],
  [
    'a trade of 1 zone, 4 exchanges, seed 1',
    trade({ zones: 1, exchanges: 4, seed: 1 }),
    [0, 6.012736143356, 4.047137270271],
    [41, 6.012736143356, 5.019568478529],
    [224, 5.978095582915, 5.978095582915],
  ],
  [
    'a trade of 1 zone, 8 exchanges, seed 6',
    trade({ zones: 1, exchanges: 8, seed: 6 }),
    [0, 6.442782005484, 3.958582922216],
    [41, 6.442782005484, 5.42397553063],
    [252, 6.442782005484, 6.442782005484],
  ],
  [
    'drawn with seed 0',
    drawn(0),
    [0, 5.299831051694, 4.823089923105],
    [29, 5.299831051694, 5.299831051694],
    [34, 5.299831051694, 5.299831051694],
  ],
  [
    'drawn with seed 1',
    drawn(1),
    [0, 0.16217089434, 0.097070138197],
    [10, 0.16217089434, 0.16217089434],
    [12, 0.16217089434, 0.16217089434],
  ],
  [
    'drawn with seed 5',
    drawn(5),
    [0, 1.554838999954, 0.141314768836],
    [31, 1.554838999954, 1.554838999954],
    [30, 1.554838999954, 1.554838999954],
  ],
  [
    'drawn with seed 15',
    drawn(15),
    [0, 1.082867600746, 0.263621911279],
    [40, 1.082867600746, 0.940704499848],
    [64, 1.082867600746, 1.082867600746],
  ],
  [
    'drawn with seed 32',
    drawn(32),
    [0, 2.341477734453, 1.687392969961],
    [40, 2.341477734453, 2.032087693196],
    [106, 2.319848585651, 2.319848585651],
  ],
  [
    'drawn with seed 47',
    drawn(47),
    [0, 2.712891452936, 1.797851593559],
    [42, 2.712891452936, 2.309747933926],
    [60, 2.712173328584, 2.712173328584],
  ],
  [
    'drawn with seed 59',
    drawn(59),
    [0, 1.236215931114, 0.736588796681],
    [40, 1.084873111838, 0.833688368519],
    [101, 1.033107791693, 1.033107791693],
  ],
];

describe('no more states, no worse a tree and no weaker a bound than before', () => {
  it.each(REACHED)('%s', (_, make, ...reached) => {
    const problem = make();
    for (const [i, budget] of [0, 40, 2000].entries()) {
      const [expanded, minutes, bound] = reached[i]!;
      const found = solveSequence(problem, budget);
      expect(found.expanded, `states within ${budget}`).toBeLessThanOrEqual(expanded);
      expect(found.minutes, `minutes within ${budget}`).toBeLessThanOrEqual(minutes + 1e-9);
      expect(found.lowerBound, `bound within ${budget}`).toBeGreaterThanOrEqual(bound - 1e-9);
    }
  });
});
