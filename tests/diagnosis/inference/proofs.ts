import { expect, test } from 'vitest';
import {
  type Case,
  type Hypothesis,
  type Model,
  observe,
  openCase,
  rank,
} from '../../../src/diagnosis/inference/index.ts';
import { systemFiles } from '../../support/content.ts';
import { type Random, random } from '../../support/random.ts';
import { detectable, job, modelOf, onTop, placeOfTruth, reported, SEEDS, some } from './jobs.ts';

/** Milliseconds: one test takes a minute where it has a core to itself. */
const PATIENCE = 600_000;
/** Files over which the systems are dealt out. */
const PARTS = 4;
/** Share of the faults that is drawn with the fresh seed: another third each time. */
const FRESH_SHARE = 1 / 3;
/** Share of jobs with a misreading that must keep the truth among the first three repairs. */
const KEPT = 0.95;

/**
 * What is proved of every shipped system and of every single fault that a listed test can
 * find: as proposed, which leaves nothing to chance, and with the fixed seed in an order and
 * with a misreading of its own; with a fresh seed the same of some of them.
 * @param part every system is in one of four, each a file of its own, so that they share the cores.
 */
export function proveInference(part: 0 | 1 | 2 | 3): void {
  const ids = systemFiles().filter((_, i) => i % PARTS === part);
  test.each(ids)(
    '%s: proposals lead to every fault or its mates',
    (id) => {
      const model = modelOf(id);
      const faults = detectable(model);
      expect(missed(faults, (fault) => onTop(job(model, fault.row!), fault))).toEqual([]);
    },
    PATIENCE,
  );

  for (const [seed, share] of [
    [SEEDS[0], 1],
    [SEEDS[1], FRESH_SHARE],
  ] as const) {
    const which = share === 1 ? 'every fault' : `${Math.round(100 * share)} % of the faults`;
    test.each(ids)(
      `%s, seed ${seed}: all tests in any order lead to the fault or its mates, ${which}`,
      (id) => {
        const model = modelOf(id);
        const pick = random(seed);
        const faults = drawn(model, share, pick);
        expect(missed(faults, (fault) => onTop(shuffled(model, fault.row!, pick), fault))).toEqual(
          [],
        );
      },
      PATIENCE,
    );

    test.each(ids)(
      `%s, seed ${seed}: one misreading leaves the repair among the first three in ${100 * KEPT} %, ${which}`,
      (id) => {
        const model = modelOf(id);
        const pick = random(seed);
        const faults = drawn(model, share, pick);
        const lost = missed(faults, (fault) => {
          const place = placeOfTruth(rank(misreadJob(model, fault, pick)).repairs, fault);
          return place >= 0 && place < 3;
        });
        const most = (1 - KEPT) * faults.length;
        expect(lost.length, lost.join('\n')).toBeLessThanOrEqual(most);
      },
      PATIENCE,
    );
  }
}

/** A share of the faults that a listed test can find, each once; all of them in their order. */
const drawn = (model: Model, share: number, pick: Random): readonly Hypothesis[] => {
  const all = detectable(model);
  return share === 1 ? all : some(all, Math.ceil(share * all.length), pick);
};

/** Ids of the faults of which something does not hold. */
function missed(faults: readonly Hypothesis[], holds: (fault: Hypothesis) => boolean): string[] {
  expect(faults.length).toBeGreaterThan(0);
  return faults.filter((fault) => !holds(fault)).map(({ id }) => id);
}

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
