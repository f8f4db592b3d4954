import { expect, test } from 'vitest';
import { type Hypothesis, type Model, rank } from '../../../src/diagnosis/inference/index.ts';
import { systemFiles } from '../../support/content.ts';
import { SEED } from '../../support/property.ts';
import { type Random, random } from '../../support/random.ts';
import {
  allRead,
  detectable,
  inItsHistory,
  isInHand,
  job,
  misreadJob,
  modelOf,
  onTop,
  placeOfTruth,
} from './jobs.ts';

/** Files over which the systems are dealt out. */
const PARTS = 4;
/** Share of jobs with a misreading that must keep the truth among the first three repairs. */
const KEPT = 0.95;

/**
 * What is proved of every shipped system and of every single fault that a listed test can
 * find: as proposed, which leaves nothing to chance; in an order and with a misreading of its
 * own, which this run's seed draws.
 * @param part every system is in one of four, each a file of its own, so that they share the cores.
 */
export function proveInference(part: 0 | 1 | 2 | 3): void {
  for (const id of systemFiles().filter((_, i) => i % PARTS === part))
    proveOf(id, (model) => detectable(model));
}

/** The same of one system, for the faults chosen. */
export function proveOf(id: string, choose: (model: Model) => readonly Hypothesis[]): void {
  test(`${id}: proposals lead to every fault or its mates`, () => {
    const model = modelOf(id);
    const lost = missed(choose(model), (fault) => {
      const { model, truth } = inItsHistory(id, fault);
      return onTop(job(model, truth.row!), truth);
    });
    expect(lost).toEqual([]);
  });

  test(`${id}, seed ${SEED}: all tests in any order, one against the rest again, lead to the fault or its mates`, () => {
    const model = modelOf(id);
    const lost = missed(choose(model), (fault, pick) => {
      const { model, truth } = inItsHistory(id, fault);
      return onTop(allRead(model, truth.row!, pick), truth);
    });
    expect(lost).toEqual([]);
  });

  test(`${id}, seed ${SEED}: one misreading leaves the repair among the first three in ${100 * KEPT} %`, () => {
    const model = modelOf(id);
    // A share of them is asked, so a fifth of them tells.
    const faults = choose(model).filter((_, i) => i % 5 === SEED % 5);
    const lost = missed(faults, (fault, pick) => {
      const { model, truth } = inItsHistory(id, fault);
      const open = misreadJob(model, truth, pick);
      const place = placeOfTruth(rank(open).repairs, truth);
      return isInHand(open, truth) || (place >= 0 && place < 3);
    });
    expect(lost.length, lost.join('\n')).toBeLessThanOrEqual((1 - KEPT) * faults.length);
  });
}

/** Ids of the faults of which something does not hold, each with choices of its own. */
function missed(
  faults: readonly Hypothesis[],
  holds: (fault: Hypothesis, pick: Random) => boolean,
): string[] {
  expect(faults.length).toBeGreaterThan(0);
  return faults.filter((fault, i) => !holds(fault, random(SEED + i))).map(({ id }) => id);
}
