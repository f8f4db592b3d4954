import { describe, expect, it } from 'vitest';
import type { Test } from '../../src/diagnosis/index.ts';
import { sequenceProblem } from '../../src/diagnosis/planning/index.ts';
import { startsOf } from '../../src/diagnosis/sequences/index.ts';
import { shipped, symptoms } from '../support/signatures.ts';
import {
  isLike,
  judgeOrder,
  minutesFrom,
  minutesWith,
  type State,
  after as statesAfter,
} from './measure.ts';
import { ORDERS } from './orders/index.ts';

const kindOf = (test: Test) => (test.kind === 'act' ? test.act : test.kind);

describe('orders of the trade', () => {
  it('each names a symptom and systems that are shipped, and no position twice', () => {
    for (const { complaint, systems, positions } of ORDERS) {
      expect(symptoms.has(complaint), complaint).toBe(true);
      for (const system of systems) expect(() => shipped(system)).not.toThrow();
      const names = positions.map(({ id }) => id);
      expect(new Set(names).size).toBe(names.length);
      for (const { after = {} } of positions)
        for (const name of Object.keys(after)) expect(names).toContain(name);
    }
  });

  it('every kind of act built is met by some position of some order', () => {
    const all = ['heat-only-two-port', 'combi-two-wire'].map((id) => shipped(id));
    const likes = ORDERS.flatMap(({ positions }) => positions.flatMap(({ accepts }) => accepts));
    const met = new Set(
      all.flatMap(({ simulation, signatures }) =>
        signatures.tests.flatMap((test) =>
          likes.some((like) => isLike(simulation.network, test, like)) ? kindOf(test) : [],
        ),
      ),
    );
    const built = new Set(all.flatMap(({ signatures }) => signatures.tests.map(kindOf)));
    expect(met).toEqual(built);
  });

  it('a position judged: what is best costs no more than what is accepted, rules apart', () => {
    const order = ORDERS.find(({ id }) => id === 'combi, hot water but no heating')!;
    const { simulation, signatures } = shipped('combi-two-wire');
    const start = startsOf(symptoms, simulation.network, signatures).find(
      ({ id }) => id === order.complaint,
    )!;
    const made = sequenceProblem(simulation.network, signatures, start.open, start);
    const { rules: _, ...free } = made.problem;
    const judged = judgeOrder(simulation.network, { ...made, problem: free }, order.positions);
    expect(judged.map(({ position }) => position)).toEqual(order.positions.map(({ id }) => id));
    for (const { best, accepted, chance } of judged) {
      expect(chance).toBeLessThanOrEqual(1);
      if (best && accepted) expect(accepted.minutes).toBeGreaterThan(best.minutes - 1e-6);
    }
    const whole: State = {
      faults: free.faults.map((_, fault) => fault),
      mode: free.start.mode,
      opened: new Set(free.start.opened),
    };
    const first = free.tests.findIndex((_, i) => statesAfter(free, whole, i).length > 1);
    for (const state of [whole, ...statesAfter(free, whole, first).map(({ state }) => state)]) {
      const telling = free.tests.flatMap((_, i) =>
        statesAfter(free, state, i).length > 1 ? [i] : [],
      );
      const costs = telling.map((i) => minutesWith(free, state, i));
      // What is best is the cheapest of all that tell (Bellman's principle).
      if (telling.length > 0) expect(Math.min(...costs)).toBeCloseTo(minutesFrom(free, state), 6);
    }
  });
});
