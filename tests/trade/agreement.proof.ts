import { describe, expect, it } from 'vitest';
import type { Network } from '../../src/circuit/index.ts';
import { type SequenceProblem, sequenceProblem } from '../../src/diagnosis/planning/index.ts';
import { startsOf } from '../../src/diagnosis/sequences/index.ts';
import { shipped, symptoms } from '../support/signatures.ts';
import { type Judged, judgeOrder } from './measure.ts';
import { ORDERS } from './orders/index.ts';
import type { Order } from './orders/order.ts';

/** Least share of the positions at which the planner agrees with the trade, by history. */
const ASKED: Readonly<Partial<Record<Order['history'], number>>> = {
  'worked until now': 0.9,
  'since work': 0.85,
};

/** Models that are wrong on purpose: where one scores as well, the lists of accepted acts are too loose. */
const CONTROLS: Readonly<Record<string, (made: SequenceProblem) => SequenceProblem>> = {
  'equal shares': (made) =>
    changed(made, ({ faults }) => ({
      faults: faults.map((fault) => ({ ...fault, weight: 1 })),
    })),
  'no minutes for isolating': (made) =>
    changed(made, ({ modeMinutes, openingMode }) => ({
      modeMinutes: (modeMinutes as readonly (readonly number[])[]).map((row, from) =>
        row.map((minutes, to) => (from === openingMode || to === openingMode ? 0 : minutes)),
      ),
    })),
  'every act one minute': (made) =>
    changed(made, ({ tests, placeMinutes, modeMinutes }) => ({
      tests: tests.map((test) => ({ ...test, minutes: 1 })),
      placeMinutes: placeMinutes.map(() => 1),
      modeMinutes: modeMinutes.map((_, from) => modeMinutes.map((__, to) => Number(from !== to))),
    })),
};

const changed = (
  made: SequenceProblem,
  change: (problem: SequenceProblem['problem']) => Partial<SequenceProblem['problem']>,
): SequenceProblem => ({ ...made, problem: { ...made.problem, ...change(made.problem) } });

interface Tally {
  readonly positions: number;
  readonly agrees: number;
  readonly strict: number;
  readonly chance: number;
}

const asItIs = (made: SequenceProblem): SequenceProblem => made;

/**
 * Every position of every order of a history, judged under a model.
 * @param most systems of each order
 */
function judgedAll(history: Order['history'], most = Infinity, model = asItIs) {
  return ORDERS.filter((order) => order.history === history).flatMap((order) =>
    order.systems.slice(0, most).flatMap((system) => {
      const { simulation, signatures } = shipped(system);
      const starts = startsOf(symptoms, simulation.network, signatures, history);
      const start = starts.find(({ id }) => id === order.complaint);
      if (!start) return [];
      const made = model(sequenceProblem(simulation.network, signatures, start.open, start));
      return judgeOrder(simulation.network as Network, made, order.positions).map((judged) => ({
        order: `${order.id}, ${system}`,
        ...judged,
      }));
    }),
  );
}

function tallyOf(judged: readonly Judged[]): Tally {
  const counted = judged.filter(({ verdict }) => verdict === 'agrees' || verdict === 'differs');
  return {
    positions: counted.length,
    agrees: counted.filter(({ verdict }) => verdict === 'agrees').length / counted.length,
    strict: counted.filter(({ strict }) => strict).length / counted.length,
    chance: counted.reduce((sum, { chance }) => sum + chance, 0) / counted.length,
  };
}

const percent = (share: number) => `${(100 * share).toFixed(0)} %`;

describe.each(['worked until now', 'since work'] as const)('orders of the trade, %s', (history) => {
  it('the planner agrees with experience, and says where it differs', () => {
    const judged = judgedAll(history);
    const tally = tallyOf(judged);
    for (const { order, position, best, accepted } of judged.filter(
      ({ verdict }) => verdict === 'differs',
    ))
      console.log(
        `${order}, ${position}: ${best!.act} ${best!.minutes.toFixed(2)} min, accepted ${accepted!.act} ${accepted!.minutes.toFixed(2)} min`,
      );
    console.table({
      [history]: {
        positions: tally.positions,
        agrees: percent(tally.agrees),
        strict: percent(tally.strict),
        chance: percent(tally.chance),
      },
      ...Object.fromEntries(
        Object.entries(CONTROLS).map(([name, model]) => {
          const control = tallyOf(judgedAll(history, 1, model));
          return [
            name,
            {
              positions: control.positions,
              agrees: percent(control.agrees),
              strict: percent(control.strict),
              chance: percent(control.chance),
            },
          ];
        }),
      ),
    });
    expect(tally.positions).toBeGreaterThan(30);
    expect(tally.agrees).toBeGreaterThanOrEqual(ASKED[history] ?? 0);
    // Blind choice among what tells would do far worse.
    expect(tally.chance).toBeLessThan(tally.agrees / 1.5);
  });
});
