import { expect, test } from 'vitest';
import { observe, openCase, rank } from '../../../src/diagnosis/inference/index.ts';
import { systemFiles } from '../../support/content.ts';
import { random, SEED } from '../../support/random.ts';
import { detectable, modelOf, reported, some } from './jobs.ts';
import { proveInference } from './proofs.ts';

const ids = systemFiles().filter((id) => !id.startsWith('combi-'));
/** As many of the runs as make this many over all the systems, however many there are. */
const each = (runs: number): number => Math.max(3, Math.round(runs / ids.length));

proveInference(ids, { proposed: each(90), inAnyOrder: each(12), misread: each(60) });

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
