import { ISOLATED } from '../../../schemas/index.ts';
import type { Hypothesis } from './hypothesis.ts';
import { type Evidence, evidenceOf } from './likelihood.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import {
  type Group,
  HIDING,
  type Hiding,
  PairEstimate,
  twos,
  unlikeFirst,
} from './pair-estimate.ts';
import { Neighbours } from './pair-near.ts';
import { HOPELESS, LOOKED, PairTrials, type Tried } from './pair-trials.ts';
import { ALLOWED_MISREADINGS } from './priors.ts';
import { questionOf } from './question.ts';
import type { Steps } from './steps.ts';

/**
 * How much is tried: counts, not time, so that the same reports give the same ranking. Work
 * is modes settled times the nodes of the circuit.
 */
const BUDGET = {
  /** Work after which the pairs of groups that the estimate puts first are no longer tried. */
  estimated: 96_000,
  /** How many of these there are at most. */
  best: 2_000,
  /** After which the first fault is no longer tried beside all others, then the second. */
  beside: [145_000, 175_000],
  /**
   * Only while no pair predicts everything: after which no other is. Of 108 double faults drawn
   * every one was met by 175,000 or among the variations; where a reading was wrong none is met at all.
   */
  deeper: 500_000,
  /** Faults that act where one does, tried beside it. */
  meeting: 600,
  /** Faults of one group tried beside one, each a different change to the circuit. */
  unlike: 6,
  /** Work for other members of the groups that fit best. */
  varied: 84_000,
  /** Pairs handed over. */
  kept: 16,
} as const;

/** How far below the best a pair is not handed over. */
const UNLIKELY = 9;

/**
 * Pairs of faults that explain what was reported best, likeliest first, each simulated as one
 * circuit with both its changes. Budgeted: where very much fits nothing it gives the best of
 * what it tried. It takes a second or so: a step is one pair or a few.
 */
export function* pairsFor(model: Model, observations: readonly Observation[]): Steps<Hypothesis[]> {
  const search = new PairSearch(model, observations);
  yield* search.tryEstimated();
  yield* search.tryBesideAll();
  yield* search.tryVariations();
  return search.best().map((pair) => model.withRow(pair));
}

/** What was reported, what was estimated of it, and the pairs tried so far. */
class PairSearch {
  readonly #model: Model;
  readonly #evidence: readonly Evidence[];
  /** Of everything reported. */
  readonly #whole: PairEstimate;
  /**
   * Of everything, then of what was read dead alone. Two faults that change what each other does
   * while live are often plain there: nothing moves, and what is joined is joined.
   */
  readonly #views: readonly PairEstimate[];
  /** How each of them, and the whole once more, is estimated. */
  readonly #estimates: readonly { readonly view: PairEstimate; readonly hiding: Hiding }[];
  readonly #neighbours: Neighbours;
  readonly #trials: PairTrials;
  /** By view, one fault of each kind, the one first that explains most alone. */
  readonly #alone: readonly (readonly number[])[];
  /** Groups of which a fault was tried beside all others. */
  readonly #done = new Set<Group>();

  constructor(model: Model, observations: readonly Observation[]) {
    const { singles } = model;
    this.#model = model;
    this.#evidence = observations.map((observation) => evidenceOf(model, observation));
    const predicted = observations.map((observation) =>
      Uint8Array.from(singles, model.answersTo(questionOf(observation))),
    );
    const dead = [...observations.keys()].filter((o) => observations[o]!.mode === ISOLATED);
    const estimateOf = (view: readonly number[]) =>
      new PairEstimate(
        singles,
        view.map((o) => this.#evidence[o]!),
        view.map((o) => predicted[o]!),
      );
    this.#whole = estimateOf([...observations.keys()]);
    const readDead = estimateOf(dead);
    this.#views = [this.#whole, readDead];
    const [rarely, mostly] = HIDING;
    this.#estimates = [
      { view: this.#whole, hiding: rarely },
      { view: readDead, hiding: rarely },
      { view: this.#whole, hiding: mostly },
    ];
    this.#neighbours = Neighbours.of(model);
    this.#alone = this.#views.map((view) =>
      view.likeliest().flatMap(({ members }) => this.#neighbours.unlike(members)),
    );
    this.#trials = new PairTrials(model, observations, this.#evidence, this.#alone[0]![0] ?? 0);
  }

  /** The likeliest two of the pairs of groups that each view puts first. */
  *tryEstimated(): Steps<void> {
    const best = this.#estimates.map(({ view, hiding }) => view.best(BUDGET.best, hiding));
    for (let i = 0; i < BUDGET.best; i++) {
      for (const pairs of best) {
        const [a, b] = pairs[i] ?? [];
        if (!a || !b) continue;
        if (this.#trials.work > BUDGET.estimated) return;
        for (const two of twos(this.#model.singles, a.members, b.members, 1)) this.#attempt(two);
        yield;
      }
    }
  }

  /**
   * The faults that explain most, alone by each view and in the pairs tried so far in turn, beside
   * all others. What two faults show where they meet is not to be had from either: one of them
   * found, the other is looked for.
   */
  *tryBesideAll(): Steps<void> {
    const ways = [
      () => this.#alone[0]!.find(this.#isNew),
      () => this.#nextInPair(),
      () => this.#alone[1]!.find(this.#isNew),
    ];
    const trials = this.#trials;
    for (let turn = 0; ; turn++) {
      const most = BUDGET.beside[turn];
      const isEnough = () =>
        most === undefined ? trials.whole || trials.work > BUDGET.deeper : trials.work > most;
      const next = ways[turn % ways.length]!() ?? ways[0]!();
      if (next === undefined || isEnough()) return;
      yield* this.#tryBeside(next, isEnough, most === undefined ? ALLOWED_MISREADINGS : undefined);
    }
  }

  *#tryBeside(anchor: number, isEnough: () => boolean, allowed: number | undefined): Steps<void> {
    this.#done.add(this.#whole.groupOf(anchor)!);
    const near = this.#neighbours.hopefulFirst(anchor, this.#evidence, BUDGET.meeting);
    const others = this.#estimates.map(({ view, hiding }) =>
      view.beside(view.groupOf(anchor), hiding),
    );
    const most = Math.max(near.length, ...others.map(({ length }) => length));
    for (let i = 0; i < most && !isEnough(); i++) {
      if (near[i] !== undefined) this.#attempt([anchor, near[i]!], allowed);
      for (const groups of others) {
        const unlike = this.#neighbours.unlike(groups[i]?.members ?? []);
        for (const two of twos(this.#model.singles, [anchor], unlike, BUDGET.unlike))
          this.#attempt(two, allowed);
      }
      yield;
    }
  }

  /** A fault, in the pairs that explain most, that was not tried beside all others. */
  #nextInPair(): number | undefined {
    const best = this.#trials.best.slice(0, LOOKED);
    return best.flatMap(({ a, b }) => [a, b]).find(this.#isNew);
  }

  #isNew = (at: number): boolean => {
    const group = this.#whole.groupOf(at);
    return group !== undefined && !this.#done.has(group);
  };

  /** Other members of the groups of the pairs that fit best. */
  *tryVariations(): Steps<void> {
    const trials = this.#trials;
    const mates = (at: number) => this.#whole.groupOf(at)?.members ?? [at];
    const varied = new Set<Tried>();
    const most = trials.work + BUDGET.varied;
    while (trials.work < most) {
      const one = trials.best.find((t) => !varied.has(t) && t.log > trials.most - HOPELESS);
      if (!one) return;
      varied.add(one);
      for (const a of mates(one.a)) this.#attempt([a, one.b]);
      for (const b of mates(one.b)) this.#attempt([one.a, b]);
      yield;
    }
  }

  /** The best of what was tried, one of each repair before the second of any. */
  best(): Hypothesis[] {
    const trials = this.#trials;
    const likely = trials.best.filter(({ log }) => log > trials.most - UNLIKELY);
    const pairs = likely.map((one) => trials.pairOf(one));
    return unlikeFirst(pairs, ({ repairKey }) => repairKey).slice(0, BUDGET.kept);
  }

  /** @param allowed misreadings after which the pair is given up; see `PairTrials.attempt`. */
  #attempt([a, b]: readonly [number, number], allowed?: number): void {
    const log = (at: number) => this.#whole.groupOf(at)?.log ?? Number.NEGATIVE_INFINITY;
    if (log(a) >= log(b)) this.#trials.attempt(a, b, allowed);
    else this.#trials.attempt(b, a, allowed);
  }
}
