import { type Minutes, minutes } from '../../units/index.ts';
import { type Suspect, sequenceProblem } from '../planning/index.ts';
import { solveSequence } from '../search/index.ts';
import { minutesFrom, type Standing, type Test, type TestAnswer } from '../tests/index.ts';
import { ANSWER_CODES, answersOf } from './codes.ts';
import { SOUND } from './hypothesis.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import { followed, type Order } from './order.ts';
import type { Explanation, Ranking } from './posterior.ts';
import { provingTest } from './proving.ts';
import { questionOf } from './question.ts';

/** A test that is worth making now. */
export interface Choice {
  readonly test: Test;
  /** Whether it has been made once before. */
  readonly again: boolean;
  /** What it takes from where the engineer stands, change of mode and covers included. */
  readonly minutes: Minutes;
  /**
   * tell apart: what is likely now; make sure: the likeliest is all but certain, and this
   * proves it where it is, or would find the unlikely explanations that show the same so far.
   */
  readonly aim: 'tell apart' | 'make sure';
}

/** Where the engineer stands, what cannot be done there, and the printed orders at hand. */
export interface Situated extends Standing {
  readonly orders: readonly Order[];
  /** Id of the printed order that was begun on; it is followed before any other. */
  readonly sequence?: string | null;
  /** Ids of tests that the engineer cannot make. */
  readonly without: ReadonlySet<string>;
  /** Explanations that are planned for, the likeliest; all unless given. */
  readonly most?: number;
}

/** Share of one repair from which on the rest is making sure. */
export const SETTLED_SHARE = 0.99;
/**
 * Explanations of a smaller posterior are not planned for. Should one of them be the truth, its
 * posterior rises with the answers that follow.
 */
const LEAST_SHARE = 1e-4;
/** States that the search may expand: some tenths of a second on a phone. */
const BUDGET = 100;
/** Answers to one question after which it is not asked any more. */
const MOST_TIMES = 2;
/** Observations that must speak for an explanation before the one against it is doubted. */
const LEAST_SUPPORT = 3;

/**
 * The test to make next: that of the printed order while one is kept to, then the first of the
 * order of least expected minutes that tells apart what is believed, by the planner that makes
 * the printed ones, then what proves a part; null when no listed test tells any more. Nothing is
 * proposed that was answered before, except a reading that stands alone against the likeliest
 * explanation, once more.
 */
export function chooseTest(
  model: Model,
  ranking: Ranking,
  observations: readonly Observation[],
  situated: Situated,
): Choice | null {
  const { network } = model.simulation;
  const asked = new Map<number, Observation[]>();
  for (const observation of observations) {
    const at = model.listedAt(questionOf(observation));
    if (at !== undefined) asked.set(at, [...(asked.get(at) ?? []), observation]);
  }
  const doubted = doubtedTests(model, ranking, observations);
  const allows = (at: number): boolean => {
    if (situated.without.has(model.tests[at]!.id)) return false;
    const count = asked.get(at)?.length ?? 0;
    return count === 0 || (count < MOST_TIMES && doubted.has(at));
  };
  const choice = (at: number, aim: Choice['aim']): Choice => {
    const test = model.tests[at]!;
    const time = minutes(minutesFrom(network, situated, test));
    return { test, minutes: time, again: asked.has(at), aim };
  };
  const cheapest = (tests: readonly number[]): Choice | null => {
    const choices = tests.map((at) => choice(at, 'make sure'));
    return choices.toSorted((a, b) => a.minutes - b.minutes)[0] ?? null;
  };
  const overlooked = [...asked].flatMap(([at, reports]) =>
    reports.every(({ answer }) => answer === 'nothing') ? at : [],
  );
  const plan = (explanations: readonly Explanation[], weightOf: (e: Explanation) => number) =>
    firstOf(
      model,
      explanations
        .flatMap((one) => suspectsOf(model, one, weightOf(one), overlooked))
        .slice(0, situated.most),
      { ...situated, history: model.history, allows },
    );
  const printed = followed(situated.orders, model, observations, allows, situated.sequence ?? null);
  if (printed !== null) return choice(printed, 'tell apart');
  // A report that stands against the rest is made again first: all that follows hangs on it.
  const again = cheapest([...doubted].filter(allows));
  if (again) return again;
  // No listed test tells what the entry does not model: what it leaves is told apart.
  const modelled = 1 - ranking.notAsShown;
  const likely = isSettled(ranking)
    ? null
    : plan(
        ranking.explanations.filter(({ share }) => share >= LEAST_SHARE * modelled),
        ({ share }) => share,
      );
  if (likely !== null) return choice(likely, 'tell apart');
  const proving = provingTest(model, ranking, observations, allows);
  if (proving !== null && allows(proving)) return choice(proving, 'make sure');
  const left = consistent(ranking);
  const sure = plan(left, () => 1);
  if (sure !== null) return choice(sure, 'make sure');
  // What some of them leave unsettled is planned for last.
  return cheapest([...model.tests.keys()].filter((at) => allows(at) && splits(left, at)));
}

/** Whether one repair is all but certain of what the entry models. */
const isSettled = ({ repairs, notAsShown }: Ranking): boolean =>
  (repairs[0]?.share ?? 0) >= SETTLED_SHARE * (1 - notAsShown);

/** Whether two explanations of different repairs answer a test differently, each for certain. */
function splits(explanations: readonly Explanation[], at: number): boolean {
  const repairs = new Set<string>();
  const answers = new Set<number>();
  for (const { hypothesis } of explanations) {
    const code = hypothesis.row?.[at] ?? ANSWER_CODES.unsettled;
    if (code === ANSWER_CODES.unsettled) continue;
    repairs.add(hypothesis.repairKey);
    answers.add(code);
  }
  return repairs.size > 1 && answers.size > 1;
}

/** Place of the first test of the order that tells suspects apart; null where none tells. */
function firstOf(
  model: Model,
  suspects: readonly Suspect[],
  beginning: Parameters<typeof sequenceProblem>[3],
): number | null {
  if (suspects.length === 0) return null;
  const sound = answersOf(model.singles.at(-1)!.row!);
  const made = sequenceProblem(
    model.simulation.network,
    { tests: model.tests, sound },
    suspects,
    beginning,
  );
  if (made.tests.length === 0) return null;
  const { tree } = solveSequence(made.problem, BUDGET, 'greedy');
  return tree.kind === 'end' ? null : model.testAt.get(made.tests[tree.test]!.id)!;
}

/**
 * What is planned for, from one explanation; nothing where only what was asked of it is known.
 * What comes and goes is two: it may misbehave, and it may behave as the sound system does.
 * @param overlooked tests that found nothing: where it would have shown, it cannot be seen.
 */
function suspectsOf(
  model: Model,
  { hypothesis }: Explanation,
  weight: number,
  overlooked: readonly number[],
): Suspect[] {
  const { id, repairKey, row } = hypothesis;
  if (!row || weight <= 0) return [];
  const hidden = overlooked.some((at) => row[at] === ANSWER_CODES.found);
  const own = answersOf(row);
  const answers = hidden ? own.map((one) => (one === 'found' ? 'nothing' : one)) : own;
  const suspect = (share: number, shown: readonly TestAnswer[]): Suspect => ({
    repairKey: id === SOUND ? null : repairKey,
    weight: weight * share,
    answers: shown,
  });
  const behaves = model.behavesWell(hypothesis);
  if (behaves === 0) return [suspect(1, answers)];
  const sound = answersOf(model.singles.at(-1)!.row!);
  const well = answers.map((one, at) => (one === 'found' ? one : sound[at]!));
  return [suspect(1 - behaves, answers), suspect(behaves, well)];
}

/**
 * Explanations that need no more misreadings than the likeliest, all taken as equally likely:
 * an unlikely explanation is found only by a test that looks for it.
 */
function consistent({ explanations }: Ranking): Explanation[] {
  const fewest = explanations[0]?.against.length ?? 0;
  return explanations.filter(({ against, share }) => against.length <= fewest && share > 0);
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
