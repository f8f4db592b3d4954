import { type Evidence, evidenceOf } from './evidence.ts';
import { both, type Hypothesis } from './hypothesis.ts';
import { PRIOR } from './likely.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import {
  canBeTogether,
  type Group,
  type GroupPair,
  groupedFaults,
  likeliestGroups,
  pairCandidates,
  twos,
  unlikeFirst,
} from './pair-candidates.ts';
import { questionOf } from './question.ts';

/**
 * How much is tried: counts, not time, so that the same reports give the same ranking. The
 * work of one trial grows with the circuit's nodes times its modes.
 */
const BUDGET = {
  /** Trials times nodes times modes. */
  work: 320_000,
  /** Trials of any system at least and at most. */
  least: 200,
  most: 700,
  /** Share of the trials spent on the pairs of groups that the estimate puts first. */
  estimated: 0.3,
  /** Share spent, when that is spent, on anchors with others beside them. */
  anchored: 0.65,
  /** Faults that explain most alone or in a pair. */
  anchors: 4,
  /** Pairs of faults tried of two groups before those that fit best are varied. */
  first: 2,
  /** Pairs handed over. */
  kept: 40,
} as const;

/** How far below the best a pair is given up before all of its answers are worked out: three misreadings. */
const HOPELESS = 14;

interface Tried {
  readonly groups: GroupPair;
  /** One of the first group, one of the second. */
  readonly a: Hypothesis;
  readonly b: Hypothesis;
  readonly pair: Hypothesis;
  /** Logarithm of prior and likelihood. */
  readonly log: number;
}

/**
 * Pairs of faults that explain what was reported best, likeliest first, each simulated as one
 * circuit with both its changes. Budgeted: where very much fits nothing it gives the best of
 * what it tried.
 */
export function pairsFor(model: Model, observations: readonly Observation[]): Hypothesis[] {
  const evidence = observations.map((observation) => evidenceOf(model, observation));
  const predicted = observations.map((observation) => {
    return Uint8Array.from(model.singles, model.answersTo(questionOf(observation)));
  });
  const groups = groupedFaults(model.singles, evidence, predicted);
  const candidates = pairCandidates(groups, evidence, predicted);
  let most = Number.NEGATIVE_INFINITY;
  const trials = trialsFor(model);
  const tried = new Map<string, Tried>();
  const attempt = (groups: GroupPair, a: Hypothesis, b: Hypothesis) => {
    const bare = inOrder(model, a, b);
    if (tried.has(bare.id) || !canBeTogether(a, b)) return;
    const log = believed(model.onTrial(bare), evidence, most - HOPELESS);
    most = Math.max(most, log);
    tried.set(bare.id, { groups, a, b, pair: bare, log });
  };
  const attemptFirst = (pairs: readonly GroupPair[], share: number) => {
    for (const pair of pairs) {
      for (const [a, b] of twos(pair.a.members, pair.b.members, BUDGET.first)) {
        if (tried.size >= trials * share) return;
        attempt(pair, a, b);
      }
    }
  };
  const best = () => [...tried.values()].sort((x, y) => y.log - x.log);
  attemptFirst(candidates, BUDGET.estimated);
  const anchors = anchorsOf(groups, best());
  attemptFirst(
    candidates.filter(({ a, b }) => anchors.includes(a) || anchors.includes(b)),
    BUDGET.anchored,
  );
  const varied = new Set<Tried>();
  while (tried.size < trials) {
    const one = best().find((t) => !varied.has(t) && t.log > most - HOPELESS);
    if (!one) break;
    varied.add(one);
    for (const a of one.groups.a.members) attempt(one.groups, a, one.b);
    for (const b of one.groups.b.members) attempt(one.groups, one.a, b);
  }
  return unlikeFirst(best(), ({ pair }) => pair.repairKey)
    .slice(0, BUDGET.kept)
    .sort((x, y) => y.log - x.log)
    .map(({ pair }) => model.withRow(pair));
}

function trialsFor({ simulation: { network, modes } }: Model): number {
  const trials = BUDGET.work / (network.nodes.length * modes.size);
  return Math.round(Math.min(BUDGET.most, Math.max(BUDGET.least, trials)));
}

/**
 * Groups that explain most, alone and in the pairs tried so far, in turn. What two faults show
 * where they meet is not to be had from either: one of them found, the other is looked for.
 */
function anchorsOf(groups: readonly Group[], best: readonly Tried[]): Group[] {
  const alone = likeliestGroups(groups);
  const paired = best.flatMap(({ groups: { a, b } }) => [a, b]);
  const inTurn = alone.flatMap((group, i) => (paired[i] ? [paired[i], group] : [group]));
  return [...new Set(inTurn)].slice(0, BUDGET.anchors);
}

/** Two faults as one explanation, in the order of the faults. */
function inOrder(model: Model, a: Hypothesis, b: Hypothesis): Hypothesis {
  const prior = 2 * PRIOR.pair * a.prior * b.prior;
  return model.placeOf(a) < model.placeOf(b) ? both(a, b, prior, null) : both(b, a, prior, null);
}

/** Logarithm of prior and likelihood; less than `least` as soon as it falls below that. */
function believed(pair: Hypothesis, evidence: readonly Evidence[], least: number): number {
  let log = Math.log(pair.prior);
  for (const { of } of evidence) {
    log += of(pair).log;
    if (log < least) break;
  }
  return log;
}
