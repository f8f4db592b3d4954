import { type Evidence, evidenceOf } from './likelihood.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import {
  type Group,
  type GroupPair,
  groupedFaults,
  likeliestGroups,
  pairCandidates,
  twos,
} from './pair-candidates.ts';
import { HIDING, hopefulFirst, Neighbours, type Two } from './pair-near.ts';
import { PairTrials } from './pair-trials.ts';
import { type Anchor, type View, viewsOf } from './pair-views.ts';
import { questionOf } from './question.ts';
import type { Steps } from './steps.ts';

/**
 * How much is tried: counts, not time, so that the same reports give the same ranking. Work
 * is modes settled times the nodes of the circuit. Where a pair is met that predicts
 * everything, the search ends long before its last budget.
 */
export const BUDGET = {
  /** Work after which the pairs of groups that the estimate puts first are no longer tried. */
  estimated: 96_000,
  /** After which the fault that explains most is no longer tried with all others, then the next. */
  anchored: [127_000, 144_000],
  /**
   * Only while no pair predicts everything: after which pairs of which one fault hides much of
   * the other are not tried.
   */
  hidden: 195_000,
  /** How many of these pairs are looked at. */
  hiding: 600,
  /** Likewise: after which the pairs that the estimate puts first for each group are not tried. */
  spread: 230_000,
  /** How many of these for each group. */
  each: 10,
  /** Likewise: after which pairs that are likely by one mode alone are not tried. */
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
  /** Faults of each such group that act at the same nodes, as a core loose at either end. */
  ends: 2,
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

/**
 * One search for pairs of faults: what was reported, the groups of faults by what they make of
 * it, and what has been tried. Each method tries some pairs, of which some were perhaps tried
 * before; which come first is up to the stages of `pairsFor`.
 */
export class PairSearch {
  readonly model: Model;
  readonly neighbours: Neighbours;
  readonly trials: PairTrials;
  /** Pairs of groups that the estimate makes likely, likeliest first. */
  readonly candidates: readonly GroupPair[];
  readonly #observations: readonly Observation[];
  readonly #evidence: readonly Evidence[];
  readonly #predicted: readonly Uint8Array[];
  /** Groups that answer something otherwise than the sound system. */
  readonly #speaking: readonly Group[];
  readonly #groupOf: ReadonlyMap<number, Group>;
  /** Singles that explain most alone, most of them one of each group. */
  readonly #alone: readonly number[];
  /** Singles already tried as an anchor, that is beside all likely others. */
  readonly #done = new Set<number>();

  constructor(model: Model, observations: readonly Observation[]) {
    const { singles } = model;
    this.model = model;
    this.neighbours = Neighbours.of(model);
    this.#observations = observations;
    this.#evidence = observations.map((observation) => evidenceOf(model, observation));
    this.#predicted = observations.map((observation) =>
      Uint8Array.from(singles, model.answersTo(questionOf(observation))),
    );
    const groups = groupedFaults(singles, this.#evidence, this.#predicted);
    this.#groupOf = new Map(groups.flatMap((group) => group.members.map((at) => [at, group])));
    this.#speaking = groups.filter(({ marks }) => marks.length > 0);
    this.candidates = pairCandidates(singles, this.#speaking, this.#evidence, this.#predicted);
    const alone = likeliestGroups(singles, this.#speaking);
    this.#alone = alone.flatMap(({ members }, i) => members.slice(0, BUDGET.members[i] ?? 1));
    this.trials = new PairTrials(model, observations, this.#evidence, alone[0]?.at ?? 0);
  }

  /** Whether less than so much work has been done. */
  within = (work: number): boolean => this.trials.work < work;

  /** What was reported as a whole, then by mode. */
  views = (): View[] =>
    viewsOf(this.model, this.#observations, this.#evidence, this.#predicted, this.#speaking);

  /** Pairs of groups of which one predicts what was observed wherever the other does not. */
  hiding(most: number): (readonly [Group, Group])[] {
    const groups = this.#speaking;
    const all = groups.flatMap((a, i) => groups.slice(i).map((b): Two => [a.at, b.at]));
    return hopefulFirst(this.model, this.#evidence, all, most, HIDING).map(
      ([a, b]) => [this.#groupOf.get(a)!, this.#groupOf.get(b)!] as const,
    );
  }

  /** All faults with the same answers as one. */
  matesOf = (single: number): readonly number[] => this.#groupOf.get(single)!.members;

  /** @param allowed misreadings after which the pair is given up; see `PairTrials.attempt`. */
  attempt(a: number, b: number, allowed?: number): void {
    const log = (at: number) => this.#groupOf.get(at)!.log;
    if (log(a) >= log(b)) this.trials.attempt(a, b, allowed);
    else this.trials.attempt(b, a, allowed);
  }

  /** Tries the likeliest two of two groups. */
  attemptLikeliest(a: Group, b: Group): void {
    for (const two of twos(this.model.singles, a.members, b.members, 1)) this.attempt(...two);
  }

  /** Tries twos of two groups that are different changes to the circuit. */
  attemptUnlike(a: Group, b: Group, allowed: number, each?: number): void {
    const [as, bs] = [a, b].map(({ members }) => this.neighbours.unlike(members, each));
    for (const two of twos(this.model.singles, as!, bs!, BUDGET.unlike))
      this.attempt(...two, allowed);
  }

  /** Tries one fault beside all that act where it does and all groups likely with its own. */
  *besideAll(anchor: number, enough: () => boolean, allowed?: number): Steps<void> {
    this.#done.add(anchor);
    const own = this.#groupOf.get(anchor)!;
    const near = this.neighbours.of(anchor).map((other): Two => [anchor, other]);
    const meeting = hopefulFirst(this.model, this.#evidence, near, BUDGET.meeting);
    const others = this.candidates.flatMap(({ a, b }) =>
      a === own ? [b.members] : b === own ? [a.members] : [],
    );
    for (let i = 0; i < Math.max(meeting.length, others.length) && !enough(); i++) {
      for (const other of others[i]?.slice(0, i < BUDGET.closely ? BUDGET.first : 1) ?? [])
        this.attempt(anchor, other, allowed);
      if (meeting[i]) this.attempt(...meeting[i]!, allowed);
      yield;
    }
  }

  /** Tries the anchor of a view beside what that view makes likely. */
  *besideAnchor(
    { group, meeting, others }: Anchor,
    enough: () => boolean,
    allowed: number,
  ): Steps<void> {
    const partners = others.slice(0, BUDGET.partners);
    for (let i = 0; i < Math.max(meeting.length, partners.length) && !enough(); i++) {
      if (meeting[i]) this.attempt(...meeting[i]!, allowed);
      if (partners[i]) this.attemptUnlike(group, partners[i]!, allowed);
      yield;
    }
  }

  /** The fault that explains most alone and has not been an anchor yet. */
  nextAlone = (): number | undefined => this.#alone.find((at) => !this.#done.has(at));

  /** The fault, not yet an anchor, in the pair that explains most of those tried. */
  nextInPair(): number | undefined {
    const best = this.trials.best().slice(0, MOST_LOOKED);
    return best.flatMap(({ a, b }) => [a, b]).find((at) => !this.#done.has(at));
  }
}
