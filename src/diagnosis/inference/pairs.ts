import { evidenceOf } from './evidence.ts';
import type { Hypothesis } from './hypothesis.ts';
import { ALLOWED_MISREADINGS } from './likely.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import {
  type Group,
  groupedFaults,
  likeliestGroups,
  pairCandidates,
  spread,
  twos,
  unlikeFirst,
} from './pair-candidates.ts';
import { hopefulFirst, Neighbours } from './pair-near.ts';
import { HOPELESS, PairTrials, type Tried } from './pair-trials.ts';
import { anchorsByView, candidatesByView, viewsOf } from './pair-views.ts';
import { questionOf } from './question.ts';

/**
 * How much is tried: counts, not time, so that the same reports give the same ranking. Work
 * is modes settled times the nodes of the circuit. Where a pair is met that predicts
 * everything, the search ends long before its last budget.
 */
const BUDGET = {
  /** Work after which the pairs of groups that the estimate puts first are no longer tried. */
  estimated: 96_000,
  /** After which the fault that explains most is no longer tried with all others, then the next. */
  anchored: [127_000, 144_000],
  /**
   * Only while no pair predicts everything: after which the pairs that the estimate puts first
   * for each group are not tried.
   */
  spread: 240_000,
  /** So many for each group. */
  each: 10,
  /** Likewise: after which what is likely by one mode is not. */
  byView: 400_000,
  /** Work for other members of the groups that fit best. */
  varied: 84_000,
  /** Members of the groups that explain most alone; of any other, one. */
  members: [4, 2],
  /** Twos of two groups tried before those that fit best are varied. */
  first: 2,
  /** Groups with an anchor of which as many are tried; of others, one. */
  closely: 30,
  /** Pairs of groups that each mode puts first, tried in a turn. */
  ofView: 40,
  /** Twos of two such groups that are different changes to the circuit. */
  unlike: 6,
  /** Groups tried with the anchor of a view, beside all faults that act where it does. */
  partners: 40,
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
  const within = (work: number) => trials.work < work;
  let allowed = Number.POSITIVE_INFINITY;
  const attempt = (a: number, b: number) =>
    log(a) >= log(b) ? trials.attempt(a, b, allowed) : trials.attempt(b, a, allowed);
  const neighbours = Neighbours.of(model);
  const attemptGroups = (a: Group, b: Group) => {
    for (const [x, y] of twos(singles, a.members, b.members, 1)) attempt(x, y);
  };
  const attemptUnlike = (a: Group, b: Group) => {
    const [as, bs] = [neighbours.unlike(a.members), neighbours.unlike(b.members)];
    for (const [x, y] of twos(singles, as, bs, BUDGET.unlike)) attempt(x, y);
  };

  for (const { a, b } of candidates) {
    if (!within(BUDGET.estimated)) break;
    attemptGroups(a, b);
  }

  const first = alone.flatMap(({ members }, i) => members.slice(0, BUDGET.members[i] ?? 1));
  const done = new Set<number>();
  const besideAll = (anchor: number, enough: () => boolean) => {
    done.add(anchor);
    const own = groupOf.get(anchor)!;
    const twos = neighbours.of(anchor).map((other) => [anchor, other] as const);
    const meeting = hopefulFirst(model, evidence, twos, BUDGET.meeting);
    const others = candidates.flatMap(({ a, b }) =>
      a === own ? [b.members] : b === own ? [a.members] : [],
    );
    for (let i = 0; i < Math.max(meeting.length, others.length) && !enough(); i++) {
      for (const other of others[i]?.slice(0, i < BUDGET.closely ? BUDGET.first : 1) ?? [])
        attempt(anchor, other);
      if (meeting[i]) attempt(...meeting[i]!);
    }
  };
  for (const [turn, most] of BUDGET.anchored.entries()) {
    const anchor = nextAnchor(turn % 2 === 0, first, trials.best(), done);
    if (anchor !== undefined) besideAll(anchor, () => !within(most));
  }

  const enough = () => trials.whole || !within(BUDGET.byView);
  if (!enough()) {
    allowed = ALLOWED_MISREADINGS;
    for (const { a, b } of spread(candidates, BUDGET.each)) {
      if (trials.whole || !within(BUDGET.spread)) break;
      attemptUnlike(a, b);
    }
    const views = viewsOf(model, observations, evidence, predicted, speaking);
    const likely = candidatesByView(model, views, BUDGET.ofView);
    for (const anchors of anchorsByView(model, views, neighbours)) {
      for (const { a, b } of likely.next().value ?? []) if (!enough()) attemptUnlike(a, b);
      const inPair = nextAnchor(false, first, trials.best(), done);
      if (inPair !== undefined && !enough()) besideAll(inPair, enough);
      for (const { group, meeting, others } of anchors) {
        const partners = others.slice(0, BUDGET.partners);
        for (let i = 0; i < Math.max(meeting.length, partners.length) && !enough(); i++) {
          if (meeting[i]) attempt(...meeting[i]!);
          if (partners[i]) attemptUnlike(group, partners[i]!);
        }
      }
      if (enough()) break;
    }
    allowed = Number.POSITIVE_INFINITY;
  }

  const varied = new Set<Tried>();
  const most = trials.work + BUDGET.varied;
  while (within(most)) {
    const one = trials.best().find((t) => !varied.has(t) && t.log > trials.most - HOPELESS);
    if (!one) break;
    varied.add(one);
    for (const a of groupOf.get(one.a)!.members) attempt(a, one.b);
    for (const b of groupOf.get(one.b)!.members) attempt(one.a, b);
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
