import { expect, test } from 'vitest';
import {
  type Case,
  type Hypothesis,
  type Model,
  observe,
  openCase,
  rank,
} from '../../../src/diagnosis/inference/index.ts';
import { type Random, random } from '../../support/random.ts';
import { detectable, job, modelOf, onTop, placeOfTruth, reported, SEEDS, some } from './jobs.ts';

/** Faults drawn for each proof, by system and seed; all of them where there are no more. */
export interface Runs {
  readonly proposed: number;
  readonly inAnyOrder: number;
  readonly misread: number;
}

/** Milliseconds: one test takes 20 s where it has a core to itself. */
const PATIENCE = 300_000;
/** Share of jobs with a misreading that must keep the truth among the first three repairs. */
const KEPT = 0.95;

/**
 * What is proved of every shipped system and of its single faults, with the fixed seed and a
 * fresh one. The full product of systems, faults, orders and misreadings is too large: faults
 * are drawn without replacement from all that a listed test can find, each with an order or a
 * misreading of its own; the count drawn and the count there are stand in the test's name.
 */
export function proveInference(ids: readonly string[], runs: Runs): void {
  for (const seed of SEEDS) {
    for (const id of ids) {
      test(
        `${id}, seed ${seed}: proposals lead to the fault or its mates, ${runs.proposed} faults drawn`,
        () => {
          const model = modelOf(id);
          const faults = drawn(model, runs.proposed, random(seed));
          expect(missed(faults, (fault) => onTop(job(model, fault.row!), fault))).toEqual([]);
        },
        PATIENCE,
      );

      test(
        `${id}, seed ${seed}: all tests in any order lead to the fault or its mates, ${runs.inAnyOrder} faults drawn`,
        () => {
          const model = modelOf(id);
          const pick = random(seed);
          const faults = drawn(model, runs.inAnyOrder, pick);
          expect(
            missed(faults, (fault) => onTop(shuffled(model, fault.row!, pick), fault)),
          ).toEqual([]);
        },
        PATIENCE,
      );
    }

    test(
      `${ids[0]} and ${ids.length - 1} more, seed ${seed}: one misreading leaves the repair among the first three in ${100 * KEPT} %, ${runs.misread} faults drawn of each`,
      () => {
        const pick = random(seed);
        let all = 0;
        const lost = ids.flatMap((id) => {
          const model = modelOf(id);
          const faults = drawn(model, runs.misread, pick);
          all += faults.length;
          return missed(faults, (fault) => {
            const place = placeOfTruth(rank(misreadJob(model, fault, pick)).repairs, fault);
            return place >= 0 && place < 3;
          }).map((fault) => `${id}: ${fault}`);
        });
        expect(lost.length, lost.join('\n')).toBeLessThanOrEqual((1 - KEPT) * all);
      },
      PATIENCE,
    );
  }
}

/** Faults drawn without replacement: as many as asked for, or all. */
function drawn(model: Model, count: number, pick: Random): Hypothesis[] {
  const all = detectable(model);
  const faults = some(all, count, pick);
  expect(faults.length).toBe(Math.min(count, all.length));
  expect(new Set(faults).size).toBe(faults.length);
  return faults;
}

const missed = (faults: readonly Hypothesis[], holds: (fault: Hypothesis) => boolean): string[] =>
  faults.filter((fault) => !holds(fault)).map(({ id }) => id);

/** Every listed test, answered in a random order. */
export function shuffled(model: Model, row: Uint8Array, pick: Random): Case {
  const order = some([...model.tests.keys()], model.tests.length, pick);
  return order.reduce(
    (open, at) => observe(open, reported(model.tests[at]!, row[at]!)),
    openCase(model),
  );
}

/** A job of which one report, a look or a reading, is wrong. */
function misreadJob(model: Model, { row }: Hypothesis, pick: Random): Case {
  const reports = job(model, row!).observations.length;
  return job(model, row!, { misread: pick.below(reports), pick });
}
