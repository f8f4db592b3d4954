import { expect, test } from 'vitest';
import { observe, rank } from '../../../src/diagnosis/inference/index.ts';
import { SEED } from '../../support/property.ts';
import { random } from '../../support/random.ts';
import { detectable, job, modelOf, observablePair, reported, shuffled } from './jobs.ts';

test('a pair is ranked the same in whatever order it is reported', () => {
  const model = modelOf('combi-two-wire');
  const truth = observablePair(model, random(SEED));
  const shares = [1, 2].map((seed) =>
    rank(shuffled(model, truth.row!, random(seed)))
      .repairs.slice(0, 5)
      .map(({ key, share }) => [key, share.toPrecision(6)]),
  );
  expect(shares[0]).toEqual(shares[1]);
});

test('nothing is looked for in pairs while one fault explains all but one report', () => {
  const model = modelOf('combi-two-wire');
  const [fault] = detectable(model);
  const test = model.tests[0]!;
  const open = observe(job(model, fault!.row!), reported(test, fault!.row![0]!));
  expect(rank(open).explanations.every(({ hypothesis }) => hypothesis.faults.length < 2)).toBe(
    true,
  );
});
