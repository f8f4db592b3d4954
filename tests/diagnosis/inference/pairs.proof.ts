import { expect, test } from 'vitest';
import {
  both,
  type Case,
  type Hypothesis,
  type Model,
  rank,
} from '../../../src/diagnosis/inference/index.ts';
import { shippedNetworks, systemFiles } from '../../support/content.ts';
import { SEED } from '../../support/property.ts';
import { type Random, random } from '../../support/random.ts';
import {
  allRead,
  historyOf,
  isInHand,
  job,
  modelOf,
  observablePair,
  onTop,
  placeOfTruth,
} from './jobs.ts';

/** Double faults put in, over all systems in turn, those that are always the same and fresh ones. */
const DRAWS = [
  // Over the systems that are written by hand: what was drawn stays the same as more are composed.
  { seed: 20_260_228, count: 40, lost: 0, of: 'written' },
  // Over all: one exchange beside another in heat-only-two-port, W4.BN with W9.OG and W2.BN with W8.OG.
  { seed: 20_260_228, count: 40, lost: 1, of: 'all' },
  // The search has a budget, and a fresh seed luck.
  { seed: SEED, count: 12, lost: 1, of: 'all' },
];

interface Double {
  readonly id: string;
  /** Of the history in which the two are likeliest. */
  readonly model: Model;
  readonly truth: Hypothesis;
}

/**
 * Double faults over the systems in turn: any two single faults that a test finds, that need
 * two repairs and can be in one circuit. Left out are only those that cannot be seen to be
 * two: every listed test answers as with one of the two alone, so that one does nothing beside
 * the other or the other hides it wholly.
 */
function doubles(ids: readonly string[], count: number, pick: Random): Double[] {
  return Array.from({ length: count }, (_, i) => {
    const id = ids[i % ids.length]!;
    const truth = observablePair(modelOf(id), pick);
    return { id, model: modelOf(id, historyOf(truth)), truth };
  });
}

/** Whether the pair is among the first five repairs: it, the same repair, or the same answers. */
function isAmongFive(open: Case, truth: Hypothesis): boolean {
  const place = placeOfTruth(rank(open).repairs, truth);
  return place >= 0 && place < 5;
}

test.each(DRAWS)(
  'seed $seed: of $count double faults over $of systems all but $lost are among the first five once all is read',
  ({ seed, count, lost: most, of }) => {
    const isWritten = (id: string) => !shippedNetworks().get(id)!.system.compose;
    const ids = of === 'all' ? systemFiles() : systemFiles().filter(isWritten);
    const drawn = doubles(ids, count, random(seed));
    expect(drawn.length).toBe(count);
    const lost = drawn.filter(
      ({ model, truth }, i) => !isAmongFive(allRead(model, truth.row!, random(seed + i)), truth),
    );
    const told = lost.map(({ id, truth }) => `${id}: ${truth.id}`).join('\n');
    expect(lost.length, told).toBeLessThanOrEqual(most);
  },
);

test.each([
  // Only with the core loose at this end does what floats read as it does.
  ['heat-only-condensate-pump', 'W1.GNYE@2:loose', 'W2.BU@2:in X1.12'],
  // Each hides much of what the other shows.
  ['heat-only-mid-position', 'W3.GNYE:broken', 'W9.BU-GNYE:short'],
])('%s: %s and %s are among the first five once all is read', (id, ...faults) => {
  const ofPair = (model: Model) => {
    const [a, b] = faults.map((fault) => model.singles.find((one) => one.id === fault));
    return model.withRow(both(a!, b!, a!.prior * b!.prior, null));
  };
  const model = modelOf(id, historyOf(ofPair(modelOf(id))));
  const truth = ofPair(model);
  expect(isAmongFive(allRead(model, truth.row!, random(1)), truth)).toBe(true);
});

/** Parts and cores that the repair of a fault is at. */
const repairedAt = ({ repairKey }: Hypothesis): string[] =>
  repairKey.match(/[A-Z]\d+(\.[A-Z]+)?/g) ?? [];

/** Ends of cores that the repair of a fault takes in hand. */
const coreEndsOf = ({ id }: Hypothesis): string[] => id.match(/[A-Z]\d+\.[A-Z]+@\d/g) ?? [];

/**
 * The proposals ask no more than one fault explains while one explains everything. Where two meet
 * at one core that may be neither: a core in the wrong terminal, of which one exchanged with
 * another that is loose as well cannot be told. Whoever goes to mend it has the core in hand, and
 * sees that it is loose.
 */
test(`seed ${SEED}: reported as the proposals ask, two faults are found at once or one after the other`, () => {
  const pick = random(SEED);
  for (const id of ['combi-two-wire', 'combi-volt-free', 'combi-wireless', 'combi-two-wire']) {
    const truth = observablePair(modelOf(id), pick);
    const model = modelOf(id, historyOf(truth));
    const open = job(model, truth.row!);
    if (isAmongFive(open, truth)) continue;
    const [a, b] = truth.faults.map(({ id }) => model.singles.find((one) => one.id === id)!);
    const { hypothesis: found, against } = rank(open).explanations[0]!;
    const inHand = coreEndsOf(found);
    const first =
      [a!, b!].find((one) => onTop(open, one)) ??
      [a!, b!].find((one) => coreEndsOf(one).some((end) => inHand.includes(end)));
    // What is seen in an open box is mended, whatever the readings before it say besides.
    if (!isInHand(open, truth)) expect(against, truth.id).toEqual([]);
    if (!first) {
      const [atA, atB] = [repairedAt(a!), repairedAt(b!)];
      expect(
        atA.filter((at) => atB.includes(at)),
        `${id}: ${truth.id}`,
      ).not.toEqual([]);
      expect([...atA, ...atB], found.id).toEqual(expect.arrayContaining(repairedAt(found)));
      continue;
    }
    // Mended, it is proved in every mode, and what is still there shows.
    const other = first === a ? b! : a!;
    expect(onTop(job(model, other.row!), other), `${truth.id}, then ${other.id}`).toBe(true);
  }
});
