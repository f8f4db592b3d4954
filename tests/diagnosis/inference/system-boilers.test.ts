import { expect, test } from 'vitest';
import { observe, openCase, rank } from '../../../src/diagnosis/inference/index.ts';
import { random, SEED } from '../../support/random.ts';
import { detectable, modelOf, reported, some } from './jobs.ts';
import { proveInference } from './proofs.ts';

proveInference(
  ['system-boiler-two-port', 'system-boiler-mid-position', 'system-boiler-condensate-pump'],
  { faults: 30, inAnyOrder: 4, misread: 20, doubles: 5, doublesProposed: 0 },
);

/** A phone is taken to be four times slower than this machine. */
const THROTTLE = 4;

test('the largest system is ranked anew after a listed reading in well under 100 ms on a phone', () => {
  const model = modelOf('system-boiler-condensate-pump');
  const pick = random(SEED);
  const { row } = pick.pick(detectable(model));
  const taken: number[] = [];
  let of = openCase(model);
  for (const test of some(model.tests, 30, pick)) {
    const started = performance.now();
    of = observe(of, reported(test, row![model.testAt.get(test.id)!]!));
    expect(rank(of).explanations.length).toBeGreaterThanOrEqual(model.singles.length);
    taken.push(performance.now() - started);
  }
  // The median: other work on the machine makes single ones late.
  const median = taken.toSorted((a, b) => a - b)[taken.length / 2]!;
  expect(median * THROTTLE).toBeLessThan(100);
});
