import { expect, test } from 'vitest';
import { Model, observe, rank } from '../../../src/diagnosis/inference/index.ts';
import { SEED } from '../../support/property.ts';
import { random } from '../../support/random.ts';
import { shippedSystem } from '../../support/shipped.ts';
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

test('a pair is ranked the same by a model that ranked other reports before', () => {
  const { simulation, compact } = shippedSystem('combi-two-wire');
  const [used, fresh] = [1, 2].map(() => new Model(simulation, compact));
  const truth = observablePair(used!, random(SEED));
  const open = shuffled(used!, truth.row!, random(3));
  // What each report added is ranked in turn, as on site; then the whole by each of the two.
  for (let count = 1; count <= open.observations.length; count += 5)
    rank({ ...open, observations: open.observations.slice(0, count) });
  const ranked = [used!, fresh!].map((model) => {
    const { repairs } = rank({ ...open, model, observations: [...open.observations] });
    return repairs.slice(0, 8).map(({ key, share }) => [key, share]);
  });
  expect(ranked[0]!.some(([key]) => String(key).includes(' + '))).toBe(true);
  expect(ranked[0]).toEqual(ranked[1]);
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
