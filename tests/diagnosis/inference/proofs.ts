import { expect, test } from 'vitest';
import { compose } from '../../../src/diagnosis/faults/index.ts';
import {
  both,
  type Case,
  type Hypothesis,
  type Model,
  needsPairs,
  observe,
  openCase,
  PRIOR,
  type RankedRepair,
  rank,
  rankAll,
} from '../../../src/diagnosis/inference/index.ts';
import { type Random, random, SEED } from '../../support/random.ts';
import {
  detectable,
  firstLooks,
  job,
  modelOf,
  onTop,
  placeOfTruth,
  reported,
  SEEDS,
  sameRow,
  some,
} from './jobs.ts';

/** Runs of each proof, by system and seed. */
export interface Runs {
  readonly faults: number;
  readonly inAnyOrder: number;
  readonly misread: number;
  /** Two faults at once, reported in a random order. */
  readonly doubles: number;
  /** Two faults at once, reported as the proposals ask: a search for pairs at every step. */
  readonly doublesProposed: number;
}

/** Milliseconds: one test takes 20 s where it has a core to itself. */
const PATIENCE = 300_000;
/** Share of jobs with a misreading that must keep the truth among the first three repairs. */
const KEPT = 0.95;
/**
 * Share of double faults that must be among the first five, and share that must be there or be
 * no likelier, by what was reported, than five others.
 */
const PAIRED = { found: 0.8, foundOrUntold: 0.92 };

/** What is proved of every shipped system, with the fixed seed and with a fresh one. */
export function proveInference(ids: readonly string[], runs: Runs): void {
  for (const seed of SEEDS) {
    for (const id of ids) {
      test(
        `${id}, seed ${seed}: proposals lead to the fault or its mates`,
        () => {
          const model = modelOf(id);
          const faults = some(detectable(model), runs.faults, random(seed));
          expect(faults.length).toBeGreaterThan(20);
          expect(missed(faults, (fault) => onTop(job(model, fault.row!), fault))).toEqual([]);
        },
        PATIENCE,
      );

      test(
        `${id}, seed ${seed}: all tests in any order lead to the fault or its mates`,
        () => {
          const model = modelOf(id);
          const pick = random(seed);
          const faults = some(detectable(model), runs.inAnyOrder, pick);
          expect(missed(faults, (fault) => onTop(shuffled(model, fault, pick), fault))).toEqual([]);
        },
        PATIENCE,
      );
    }

    test(
      `${ids[0]} and the like, seed ${seed}: one misreading leaves the repair among the first three`,
      () => {
        const pick = random(seed);
        const lost = ids.flatMap((id) => {
          const model = modelOf(id);
          return missed(some(detectable(model), runs.misread, pick), (fault) => {
            const place = placeOfTruth(rank(misreadJob(model, fault, pick)).repairs, fault);
            return place >= 0 && place < 3;
          }).map((fault) => `${id}: ${fault}`);
        });
        const most = (1 - KEPT) * runs.misread * ids.length;
        expect(lost.length, lost.join('\n')).toBeLessThanOrEqual(most);
      },
      PATIENCE,
    );
  }

  for (const order of ['in any order', 'as proposed'] as const) {
    const count = order === 'as proposed' ? runs.doublesProposed : runs.doubles;
    if (count > 0) proveDoubles(ids, order, count);
  }
}

/** With the fixed seed alone: a search for pairs takes a second, and few fresh ones prove little. */
function proveDoubles(ids: readonly string[], order: Order, count: number): void {
  test(
    `${ids[0]} and the like, seed ${SEED}: two faults, reported ${order}, are among the first five`,
    () => {
      const pick = random(SEED);
      const missing: string[] = [];
      let untold = 0;
      let all = 0;
      for (const id of ids) {
        for (const { truth, open } of doubleJobs(modelOf(id), count, order, pick)) {
          all++;
          const { repairs, explanations } = rank(open);
          if (isFirst(repairs, truth)) continue;
          if (!wouldBeFirst(open, truth)) untold++;
          missing.push(`${id}: ${truth.id}, not ${explanations[0]!.hypothesis.id}`);
        }
      }
      const told = missing.join('\n');
      expect(all).toBe(count * ids.length);
      expect(all - missing.length, told).toBeGreaterThanOrEqual(Math.floor(PAIRED.found * all));
      expect(all - missing.length + untold, told).toBeGreaterThanOrEqual(
        Math.floor(PAIRED.foundOrUntold * all),
      );
    },
    PATIENCE,
  );
}

/** Whether a truth is among the first five repairs. */
function isFirst(repairs: readonly RankedRepair[], truth: Hypothesis): boolean {
  const place = placeOfTruth(repairs, truth);
  return place >= 0 && place < 5;
}

/** Whether the truth would be among the first five if the search had been given it. */
function wouldBeFirst({ model, observations }: Case, truth: Hypothesis): boolean {
  const prior = 2 * PRIOR.pair * truth.prior;
  const found = rank({ ...openCase(model), observations }).explanations.flatMap(({ hypothesis }) =>
    hypothesis.faults.length > 1 ? hypothesis : [],
  );
  return isFirst(rankAll(model, observations, [...found, { ...truth, prior }]).repairs, truth);
}

const missed = (faults: readonly Hypothesis[], holds: (fault: Hypothesis) => boolean): string[] =>
  faults.filter((fault) => !holds(fault)).map(({ id }) => id);

/** Every listed test, answered in a random order. */
function shuffled(model: Model, { row }: Hypothesis, pick: Random): Case {
  const order = some([...model.tests.keys()], model.tests.length, pick);
  return order.reduce(
    (open, at) => observe(open, reported(model.tests[at]!, row![at]!)),
    openCase(model),
  );
}

/** A job of which one report, a look or a reading, is wrong. */
function misreadJob(model: Model, { row }: Hypothesis, pick: Random): Case {
  const reports = job(model, row!).observations.length;
  return job(model, row!, { misread: pick.below(reports), pick });
}

type Order = 'in any order' | 'as proposed';

/** Readings reported of two faults, after the first looks. */
const READINGS = 60;

/** The first looks, then readings in a random order. */
function looksAndReadings(model: Model, row: Uint8Array, pick: Random): Case {
  const looks = firstLooks(model);
  const others = [...model.tests.keys()].filter((at) => !looks.includes(at));
  return [...looks, ...some(others, READINGS, pick)].reduce(
    (open, at) => observe(open, reported(model.tests[at]!, row[at]!)),
    openCase(model),
  );
}

/** Jobs with two faults at once that no single one explains when they end. */
function doubleJobs(model: Model, count: number, order: Order, pick: Random) {
  const singles = detectable(model);
  const jobs: { truth: Hypothesis; open: Case }[] = [];
  for (let tries = 0; jobs.length < count && tries < 50 * count; tries++) {
    const [a, b] = [pick.pick(singles), pick.pick(singles)];
    if (a.repairKey === b.repairKey || !compose(a.faults[0]!.edit, b.faults[0]!.edit)) continue;
    const bare = both(a, b, a.prior * b.prior, null);
    const row = model.rowOfPair(bare);
    if (model.singles.some((single) => sameRow(single.row!, row))) continue;
    const open = order === 'as proposed' ? job(model, row) : looksAndReadings(model, row, pick);
    if (needsPairs(model, open.observations)) jobs.push({ truth: { ...bare, row }, open });
  }
  return jobs;
}
