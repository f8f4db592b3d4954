import { type Minutes, minutes } from '../../units/index.ts';
import { minutesFrom, type Standing, type Test } from '../tests/index.ts';
import { type Belief, informationOf, splits, type Unit } from './information.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import type { Explanation, Ranking } from './posterior.ts';
import { questionOf } from './question.ts';

/** A test that is worth making now. */
export interface Choice {
  readonly test: Test;
  /** Whether it has been made once before. */
  readonly again: boolean;
  /** What it takes from where the engineer stands, change of mode and covers included. */
  readonly minutes: Minutes;
  /** What it is expected to tell of the repair, bits; 0 where it is only read again. */
  readonly bits: number;
  /**
   * tell apart: what is likely now; make sure: the likeliest is all but certain, and this
   * would find the unlikely explanations that show the same so far.
   */
  readonly aim: 'tell apart' | 'make sure';
}

/** Share of one repair from which on the rest is making sure. */
export const SETTLED_SHARE = 0.99;
/** A test that tells less is not worth proposing for itself, bits. */
const LEAST_BITS = 0.01;
/**
 * Explanations of a smaller posterior are left out of the sum. Should one of them be the truth,
 * its posterior rises with the answers that follow.
 */
const LEAST_SHARE = 1e-5;
/** Minutes to report an answer, a look's too (common practice, no source). */
const REPORTING = 0.1;
/** Answers to one question after which it is not asked any more. */
const MOST_TIMES = 2;
/** Observations that must speak for an explanation before the one against it is doubted. */
const LEAST_SUPPORT = 3;

/**
 * The listed test that tells most of the repair for each minute it takes; null when no listed
 * test tells any more. Nothing is proposed that was answered before, except a reading that
 * stands alone against the likeliest explanation, once more.
 */
export function chooseTest(
  model: Model,
  ranking: Ranking,
  observations: readonly Observation[],
  standing: Standing,
): Choice | null {
  const times = new Map<number, number>();
  for (const observation of observations) {
    const at = model.listedAt(questionOf(observation));
    if (at !== undefined) times.set(at, (times.get(at) ?? 0) + 1);
  }
  const doubted = doubtedTests(model, ranking, observations);
  const allowed = [...model.tests.keys()].filter((at) => {
    const count = times.get(at) ?? 0;
    return count === 0 || (count < MOST_TIMES && doubted.has(at));
  });
  const cost = costs(model, standing);
  const pick = (belief: Belief, aim: Choice['aim'], least: number) =>
    best(model, allowed, belief, cost, least, (at) => ({
      again: times.has(at),
      aim,
    }));
  // No listed test tells what the entry does not model: what it leaves is told apart.
  const modelled = 1 - ranking.notAsShown;
  const settled = (ranking.repairs[0]?.share ?? 0) >= SETTLED_SHARE * modelled;
  const likely = settled ? null : pick(likelyBelief(ranking), 'tell apart', LEAST_BITS);
  const sure = likely ?? pick(consistentBelief(ranking), 'make sure', 0);
  return sure ?? readAgain(model, allowed, doubted, cost);
}

/** The cheapest reading to take again where one stands against the rest, and nothing else tells. */
function readAgain(
  model: Model,
  allowed: readonly number[],
  doubted: ReadonlySet<number>,
  cost: (test: Test) => number,
): Choice | null {
  const [test] = allowed
    .filter((at) => doubted.has(at))
    .map((at) => model.tests[at]!)
    .sort((a, b) => cost(a) - cost(b));
  return test
    ? { test, minutes: minutes(cost(test)), bits: 0, again: true, aim: 'make sure' }
    : null;
}

/** Tests answered against the likeliest explanation while at least three speak for it. */
export function doubtedTests(
  model: Model,
  { explanations: [top] }: Ranking,
  observations: readonly Observation[],
): Set<number> {
  if (!top || observations.length - top.against.length < LEAST_SUPPORT) return new Set();
  return new Set(
    top.against.flatMap((place) => model.listedAt(questionOf(observations[place]!)) ?? []),
  );
}

/** The posterior of what the entry models, repair by repair. */
function likelyBelief({ explanations, notAsShown }: Ranking): Belief {
  const least = LEAST_SHARE * (1 - notAsShown);
  const kept = explanations.filter(({ share }) => share >= least);
  const sum = kept.reduce((total, { share }) => total + share, 0);
  return unitsByRepair(kept, ({ share }) => share / sum);
}

/**
 * Every explanation that needs no more misreadings than the likeliest, all taken as equally
 * likely: an unlikely explanation is found only by a test that looks for it.
 */
function consistentBelief({ explanations }: Ranking): Belief {
  const fewest = explanations[0]?.against.length ?? 0;
  const kept = explanations.filter(({ against, share }) => against.length <= fewest && share > 0);
  return unitsByRepair(kept, () => 1 / kept.length);
}

function unitsByRepair(
  explanations: readonly Explanation[],
  shareOf: (explanation: Explanation) => number,
): Unit[][] {
  const byRepair = Map.groupBy(explanations, ({ hypothesis }) => hypothesis.repairKey);
  return [...byRepair.values()].map((members) => {
    const byRow = new Map<Uint8Array, number>();
    for (const explanation of members) {
      const { row } = explanation.hypothesis;
      if (row) byRow.set(row, (byRow.get(row) ?? 0) + shareOf(explanation));
    }
    return [...byRow].map(([row, share]) => ({ row, share }));
  });
}

/** Minutes of any test from where the engineer stands. */
const costs =
  ({ simulation: { network } }: Model, standing: Standing) =>
  (test: Test): number =>
    minutesFrom(network, standing, test);

function best(
  model: Model,
  allowed: readonly number[],
  belief: Belief,
  cost: (test: Test) => number,
  least: number,
  rest: (at: number) => Pick<Choice, 'again' | 'aim'>,
): Choice | null {
  let found: Choice | null = null;
  let most = 0;
  for (const at of allowed) {
    if (!splits(belief, at)) continue;
    const test = model.tests[at]!;
    const bits = informationOf(belief, test, at);
    const time = cost(test);
    const worth = bits / (time + REPORTING);
    if (bits <= least || worth <= most) continue;
    most = worth;
    found = { test, minutes: minutes(time), bits, ...rest(at) };
  }
  return found;
}
