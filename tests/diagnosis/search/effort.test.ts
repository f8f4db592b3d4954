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
    [0, 6.393649248822, 4.087995449345],
    [40, 6.393649248822, 5.170491410284],
    [414, 6.039897741362, 6.039897741362],
  ],
  [
    'a trade of 1 zone, 4 exchanges, seed 1',
    trade({ zones: 1, exchanges: 4, seed: 1 }),
    [0, 6.040328238005, 4.047137270271],
    [40, 6.040328238005, 4.820101890607],
    [215, 6.017927259863, 6.017927259863],
  ],
  [
    'a trade of 1 zone, 8 exchanges, seed 6',
    trade({ zones: 1, exchanges: 8, seed: 6 }),
    [0, 6.473427451004, 3.958582922216],
    [40, 6.473427451004, 5.466906879857],
    [263, 6.473427451004, 6.473427451004],
  ],
  [
    'drawn with seed 0',
    drawn(0),
    [0, 6.299831051694, 5.185817396064],
    [40, 6.299831051694, 6.081858095271],
    [65, 6.299831051694, 6.299831051694],
  ],
  [
    'drawn with seed 1',
    drawn(1),
    [0, 1.205116835786, 0.423005393205],
    [40, 1.205116835786, 0.567029107691],
    [91, 1.20098539573, 1.20098539573],
  ],
  [
    'drawn with seed 5',
    drawn(5),
    [0, 1.546931477322, 0.103372570323],
    [40, 1.546931477322, 1.1],
    [69, 1.375297421398, 1.375297421398],
  ],
  [
    'drawn with seed 15',
    drawn(15),
    [0, 1.316762231294, 0.129413649204],
    [41, 1.316762231294, 0.631951554979],
    [210, 1.117381714556, 1.117381714556],
  ],
  [
    'drawn with seed 32',
    drawn(32),
    [0, 3.355985208944, 2.235936079113],
    [41, 3.355985208944, 3.355596462991],
    [46, 3.355985208944, 3.355985208944],
  ],
  [
    'drawn with seed 47',
    drawn(47),
    [0, 2.521661662595, 1.664725934736],
    [40, 2.521661662595, 2.521661662595],
    [43, 2.521661662595, 2.521661662595],
  ],
  [
    'drawn with seed 59',
    drawn(59),
    [0, 0.763125149253, 0.535032565057],
    [32, 0.75330049876, 0.75330049876],
    [38, 0.75330049876, 0.75330049876],
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
