import { compose, SEEN_SHARE } from '../../../src/diagnosis/faults/index.ts';
import { HISTORIES } from '../../../src/diagnosis/index.ts';
import {
  ANSWER_CODES,
  ANSWERS,
  alphabetOf,
  askedBy,
  both,
  type Case,
  type Hypothesis,
  isTripAlone,
  type Model,
  misreadingOf,
  next,
  observe,
  openCase,
  PRIOR,
  type RankedRepair,
  rank,
  UNEXPLAINED_TRIP,
  verdict,
} from '../../../src/diagnosis/inference/index.ts';
import type { Test } from '../../../src/diagnosis/tests/index.ts';
import type { Random } from '../../support/random.ts';
import type { Stated } from '../../support/scores.ts';
import { modelOf, otherAnswer, reported } from './jobs.ts';
import { isAt, placesOf, type Unmodelled, unmodelledOf } from './unmodelled.ts';

/** What a job stated first at some moment of a visit, and what was there. */
export interface Visit extends Stated {
  readonly unmodelled: boolean;
  readonly misread: boolean;
}

/** What is there on a visit: its answers, and the repairs that are right. */
interface Truth {
  readonly row: Uint8Array;
  /** Chance that a look or reading finds it behaving well. */
  readonly behaves: number;
  readonly isRepair: (repair: RankedRepair) => boolean;
  readonly modelled: boolean;
}

/** Share of the visits in which something is there that no entry models. */
const UNMODELLED = 0.2;
/** Steps after which a visit's statement is taken, at most; fewer where the job has ended. */
const MOST_STEPS = 40;
/** What the visits of a system draw from: unmodelled faults of each kind, double faults a history. */
export interface Pool {
  readonly unmodelled: number;
  readonly doubles: number;
}

/** What a test shows: as computed, where the circuit settles it and nothing is overlooked. */
function shownBy(test: Test, code: number, pick: Random): number {
  if (code === ANSWER_CODES.found) return pick.next() < SEEN_SHARE ? code : ANSWER_CODES.nothing;
  if (code !== ANSWER_CODES.unsettled && code !== ANSWER_CODES['no short']) return code;
  const { first, size } = alphabetOf(askedBy(test));
  const any = Array.from({ length: size }, (_, i) => first + i);
  return pick.pick(any.filter((one) => !NEVER.includes(one)));
}

/** What neither ghost volts nor a board can give. */
const NEVER: readonly number[] = [ANSWER_CODES.joined, ANSWER_CODES.high];

/** Jobs of one model, walked as proposed; what was worked out for one is kept for the next. */
class Walker {
  readonly #model: Model;
  readonly #next = new Map<string, number | null>();

  constructor(model: Model) {
    this.#model = model;
  }

  /**
   * The case after some steps, or where the job ends before: no proposal, or not as shown.
   * Each report is wrong as often as the model takes it to be, once in a visit at most.
   */
  walk({ row, behaves }: Truth, steps: number, pick: Random): { open: Case; misread: boolean } {
    const model = this.#model;
    const sound = model.singles.at(-1)!.row!;
    let open = openCase(model);
    let path = '';
    let misread = false;
    for (let step = 0; step < steps; step++) {
      let at = this.#next.get(path);
      if (at === undefined) {
        const ended = verdict(open).kind === 'not as shown';
        const proposed = ended ? null : next(open);
        at = proposed ? model.testAt.get(proposed.test.id)! : null;
        this.#next.set(path, at);
      }
      if (at === null) break;
      const test = model.tests[at]!;
      // What is to be seen in an open box is there all the time.
      const well =
        alphabetOf(askedBy(test)).first !== ANSWER_CODES.nothing && pick.next() < behaves;
      const shown = shownBy(test, (well ? sound : row)[at]!, pick);
      const other = otherAnswer(test, shown, pick);
      const rate = misreadingOf({ kind: test.kind, answer: ANSWERS[other] });
      const slips: boolean = !misread && pick.next() < rate;
      misread ||= slips;
      const code = slips ? other : shown;
      open = observe(open, reported(test, code));
      path += ` ${at}:${code}`;
    }
    return { open, misread };
  }
}

/** Visits to one system: drawn by the model's own priors in each history in turn. */
export class Visits {
  readonly #histories: readonly {
    readonly model: Model;
    readonly walker: Walker;
    readonly doubles: readonly Hypothesis[];
  }[];
  readonly #unmodelled: readonly Unmodelled[];

  constructor(id: string, pool: Pool, pick: Random) {
    this.#histories = HISTORIES.map((history) => {
      const model = modelOf(id, history);
      return { model, walker: new Walker(model), doubles: doublesOf(model, pool.doubles, pick) };
    });
    this.#unmodelled = unmodelledOf(this.#histories[0]!.model, pool.unmodelled);
  }

  /** One visit: what the job states first at a moment of it. */
  visit(pick: Random): Visit {
    const { model, walker, doubles } = pick.pick(this.#histories);
    const unmodelled = this.#unmodelled;
    const truth =
      pick.next() < UNMODELLED
        ? outside(byWeight(unmodelled, ({ at }) => metAt(model, at), pick))
        : drawn(model, doubles, pick);
    const steps = 1 + pick.below(MOST_STEPS);
    const { open, misread } = walker.walk(truth, steps, pick);
    const { repairs, notAsShown } = rank(open);
    const [top] = repairs;
    const seen = { unmodelled: !truth.modelled, misread };
    return notAsShown > top!.share
      ? { ...seen, share: notAsShown, right: !truth.modelled }
      : { ...seen, share: top!.share, right: truth.isRepair(top!) };
  }
}

/** Share of two faults at once among what is modelled. */
const PAIR_SHARE = PRIOR.pair / (1 - PRIOR.notAsShown);

/** Double faults, each part drawn by its prior. */
function doublesOf(model: Model, count: number, pick: Random): Hypothesis[] {
  const faults = model.singles.filter(({ faults }) => faults.length === 1);
  const found: Hypothesis[] = [];
  while (found.length < count) {
    const [a, b] = [byPrior(faults, pick), byPrior(faults, pick)];
    if (a.repairKey === b.repairKey || !compose(a.faults[0]!.edit, b.faults[0]!.edit)) continue;
    found.push(model.withRow(both(a, b, a.prior * b.prior, null)));
  }
  return found;
}

/** One of some explanations, each as often as its prior says. */
const byPrior = (all: readonly Hypothesis[], pick: Random): Hypothesis =>
  byWeight(all, ({ prior }) => prior, pick);

function byWeight<T>(all: readonly T[], weigh: (one: T) => number, pick: Random): T {
  let left = pick.next() * all.reduce((sum, one) => sum + weigh(one), 0);
  for (const one of all) {
    left -= weigh(one);
    if (left < 0) return one;
  }
  return all.at(-1)!;
}

/**
 * How often the listed faults of some places are met: a part fails in a way that no list has the
 * more often the more often it fails.
 */
const metAt = ({ singles }: Model, at: readonly string[]): number =>
  singles.reduce(
    (sum, one) => sum + (placesOf(one).some((place) => at.includes(place)) ? one.prior : 0),
    0,
  );

const outside = ({ row, at }: Unmodelled): Truth => ({
  row,
  behaves: 0,
  modelled: false,
  isRepair: (repair) => isAt(repair, at),
});

/** One of a model's explanations, each as often as its prior says: two faults at once too. */
function drawn(model: Model, doubles: readonly Hypothesis[], pick: Random): Truth {
  const truth = pick.next() < PAIR_SHARE ? pick.pick(doubles) : byPrior(model.singles, pick);
  // What blew it is nothing that the entry has: a new fuse repairs nothing.
  if (isTripAlone(truth) && pick.next() < UNEXPLAINED_TRIP)
    return { row: truth.row!, behaves: 0, modelled: false, isRepair: () => false };
  const keys = truth.faults.length > 1 ? truth.faults.map(({ repairKey }) => repairKey) : [];
  return {
    row: truth.row!,
    behaves: model.behavesWell(truth),
    modelled: true,
    // One of two is repaired first: what is proved then shows the other.
    isRepair: ({ key }) => key === truth.repairKey || keys.includes(key),
  };
}
