import { evidenceOf } from './evidence.ts';
import type { Hypothesis } from './hypothesis.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import {
  type GroupPair,
  groupedFaults,
  likeliestGroups,
  pairCandidates,
  twos,
  unlikeFirst,
} from './pair-candidates.ts';
import { hopefulFirst, Neighbours } from './pair-near.ts';
import { HOPELESS, PairTrials, type Tried } from './pair-trials.ts';
import { questionOf } from './question.ts';

/**
 * How much is tried: counts, not time, so that the same reports give the same ranking. Work
 * is modes settled times the nodes of the circuit.
 */
const BUDGET = {
  work: 240_000,
  /** Share of the work by which the pairs of groups that the estimate puts first are tried. */
  estimated: 0.4,
  /** By which anchors with others beside them are. */
  anchored: 0.8,
  /** By which twos that meet at one node are. */
  near: 0.88,
  /** By which other members of the groups that fit best are; the rest goes by the estimate. */
  varied: 0.95,
  /** Faults that explain most alone or in a pair, each tried with others. */
  anchors: 12,
  /** Those of them that are tried even where a pair is met that predicts everything. */
  atLeast: 2,
  /** Members of the groups that explain most alone; of any other, one. */
  members: [4, 2],
  /** Twos of two groups tried before those that fit best are varied. */
  first: 2,
  /** Groups with an anchor of which as many are tried; of others, one. */
  closely: 30,
  /** Twos that meet at one node, of all faults. */
  meeting: 600,
  /** Pairs handed over. */
  kept: 16,
} as const;

/** Pairs tried among which a fault is looked for that explains much. */
const MOST_LOOKED = 40;
/** How far below the best a pair is not handed over. */
const UNLIKELY = 9;

/**
 * Pairs of faults that explain what was reported best, likeliest first, each simulated as one
 * circuit with both its changes. Budgeted: where very much fits nothing it gives the best of
 * what it tried.
 */
export function pairsFor(model: Model, observations: readonly Observation[]): Hypothesis[] {
  const { singles } = model;
  const evidence = observations.map((observation) => evidenceOf(model, observation));
  const predicted = observations.map((observation) =>
    Uint8Array.from(singles, model.answersTo(questionOf(observation))),
  );
  const groups = groupedFaults(singles, evidence, predicted);
  const speaking = groups.filter(({ marks }) => marks.length > 0);
  const candidates = pairCandidates(singles, speaking, evidence, predicted);
  const alone = likeliestGroups(singles, speaking);
  const trials = new PairTrials(model, observations, evidence, alone[0]?.at ?? 0);
  const groupOf = new Map(groups.flatMap((group) => group.members.map((at) => [at, group])));
  const log = (at: number) => groupOf.get(at)!.log;
  const within = (share: number) => trials.work < BUDGET.work * share;
  const attempt = (a: number, b: number) =>
    log(a) >= log(b) ? trials.attempt(a, b) : trials.attempt(b, a);
  const attemptGroups = ({ a, b }: GroupPair, most: number) => {
    for (const [x, y] of twos(singles, a.members, b.members, most)) attempt(x, y);
  };

  for (const pair of candidates) {
    if (!within(BUDGET.estimated)) break;
    attemptGroups(pair, 1);
  }

  const neighbours = Neighbours.of(model);
  const done = new Set<number>();
  const first = alone.flatMap(({ members }, i) => members.slice(0, BUDGET.members[i] ?? 1));
  const turns = [...Array(BUDGET.anchors).keys()];
  const all = turns.reduce((sum, turn) => sum + 1 / (turn + 1), 0);
  let part = 0;
  for (const turn of turns) {
    const anchor = nextAnchor(turn % 2 === 0, first, trials.best(), done);
    if (anchor === undefined || (trials.whole && turn >= BUDGET.atLeast)) break;
    done.add(anchor);
    const own = groupOf.get(anchor)!;
    const meeting = hopefulFirst(
      model,
      evidence,
      neighbours.of(anchor).map((other) => [anchor, other] as const),
      BUDGET.meeting,
    );
    const others = candidates.flatMap(({ a, b }) =>
      a === own ? [b.members] : b === own ? [a.members] : [],
    );
    // The first anchors, which explain most, have most of the work.
    part += 1 / (turn + 1);
    const share = BUDGET.estimated + ((BUDGET.anchored - BUDGET.estimated) * part) / all;
    for (let i = 0; i < Math.max(meeting.length, others.length) && within(share); i++) {
      for (const other of others[i]?.slice(0, i < BUDGET.closely ? BUDGET.first : 1) ?? [])
        attempt(anchor, other);
      if (meeting[i]) attempt(...meeting[i]!);
    }
  }

  const meeting = neighbours.pairs(new Set(groupOf.keys()));
  for (const [a, b] of hopefulFirst(model, evidence, meeting, BUDGET.meeting)) {
    if (!within(BUDGET.near) || trials.whole) break;
    attempt(a, b);
  }

  const varied = new Set<Tried>();
  while (within(BUDGET.varied)) {
    const one = trials.best().find((t) => !varied.has(t) && t.log > trials.most - HOPELESS);
    if (!one) break;
    varied.add(one);
    for (const a of groupOf.get(one.a)!.members) attempt(a, one.b);
    for (const b of groupOf.get(one.b)!.members) attempt(one.a, b);
  }

  for (const pair of candidates) {
    if (!within(1) || trials.whole) break;
    attemptGroups(pair, 1);
  }

  const likely = trials.best().filter((t) => t.log > trials.most - UNLIKELY);
  return unlikeFirst(likely, ({ pair }) => pair.repairKey)
    .slice(0, BUDGET.kept)
    .map(({ pair }) => model.withRow(pair));
}

/**
 * The fault that explains most, alone or in the pairs tried so far. What two faults show where
 * they meet is not to be had from either: one of them found, the other is looked for.
 */
function nextAnchor(
  first: boolean,
  alone: readonly number[],
  best: readonly Tried[],
  done: ReadonlySet<number>,
): number | undefined {
  const single = alone.find((at) => !done.has(at));
  const paired = best.slice(0, MOST_LOOKED).flatMap(({ a, b }) => [a, b]);
  const inPair = paired.find((at) => !done.has(at));
  return first ? (single ?? inPair) : (inPair ?? single);
}
