import { describe, expect, it } from 'vitest';
import { PackingBound } from '../../../src/diagnosis/search/packing-bound.ts';
import { type Reduced, reduce } from '../../../src/diagnosis/search/reduce.ts';
import { property, SEED } from '../../support/property.ts';
import { type Random, random } from '../../support/random.ts';
import { smallProblem } from './small.ts';

/** Fewest tests that part a bundle from some others, all sets tried. */
function fewest({ tests, repairs }: Reduced, bundle: number, others: number[]) {
  const parted = others.filter(
    (other) =>
      repairs[other] !== repairs[bundle] &&
      tests.some(({ answers }) => answers[other] !== answers[bundle]),
  );
  let least = tests.length;
  for (let set = 0; set < 1 << tests.length; set++) {
    const taken = tests.filter((_, i) => (set >> i) & 1);
    const all = parted.every((other) =>
      taken.some(({ answers }) => answers[other] !== answers[bundle]),
    );
    if (all) least = Math.min(least, taken.length);
  }
  return least;
}

/** The bound, with room behind the others as the search's own lists have. */
const testsTo = (packing: PackingBound, bundle: number, others: readonly number[]) =>
  packing.testsTo(bundle, Uint16Array.from([...others, bundle]), others.length);

/** Of every bundle of a small problem: the bound, and the fewest that it is a bound of. */
function boundsOf(from: Random): { readonly bound: number; readonly least: number }[] {
  const reduced = reduce(smallProblem(from));
  const packing = new PackingBound(reduced);
  return Array.from({ length: reduced.count }, (_, bundle) => {
    const others = Array.from({ length: reduced.count }, (_, i) => i).filter(
      () => from.below(4) > 0,
    );
    return {
      bound: testsTo(packing, bundle, others),
      least: fewest(reduced, bundle, others),
    };
  });
}

describe('tests on the way to one bundle', () => {
  property('are never more than the fewest that part it from the others', 400, (from) => {
    for (const { bound, least } of boundsOf(from)) expect(bound).toBeLessThanOrEqual(least);
  });

  it(`are mostly as many, seed ${SEED}`, () => {
    const all = Array.from({ length: 400 }, (_, i) => boundsOf(random(SEED + i))).flat();
    const asMany = all.filter(({ bound, least }) => bound === least);
    expect(asMany.length / all.length).toBeGreaterThan(0.8);
    expect(all.filter(({ bound }) => bound > 1).length).toBeGreaterThan(20);
  });
});

it('one test for each of what no other test finds', () => {
  const reduced = reduce({
    faults: [0, 1, 2, 3].map((repair) => ({ weight: repair === 0 ? 9 : 1, repair })),
    tests: [1, 2, 3].map((fault) => ({
      id: `finds ${fault}`,
      minutes: 0.5,
      mode: 0,
      place: -1,
      answers: [0, 1, 2, 3].map((one) => Number(one === fault)),
    })),
    modeMinutes: [0],
    placeMinutes: [],
    start: { mode: 0, opened: [] },
  });
  const packing = new PackingBound(reduced);
  expect(testsTo(packing, 0, [0, 1, 2, 3])).toBe(3);
  expect(testsTo(packing, 0, [0, 2])).toBe(1);
  expect(testsTo(packing, 1, [0, 1, 2, 3])).toBe(1);
});
