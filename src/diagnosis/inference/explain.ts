import { lowerFirst } from '../../words/index.ts';
import { type Hypothesis, SOUND } from './hypothesis.ts';
import { evidenceOf } from './likelihood.ts';
import type { Model } from './model.ts';
import type { Choice } from './next.ts';
import type { Observation } from './observation.ts';
import type { Explanation, Ranking } from './posterior.ts';
import { askedBy } from './question.ts';
import { clauseOf, modeTitle, subjectOf } from './words.ts';

/** What speaks for an explanation and what against it; plain sentences. */
export interface Reasons {
  /** As in `Because E1 call return reads dead while B1 NO is live (Heating call).` */
  readonly because: string;
  /** As in `Against it: Q1 load L reads dead (Standby).`; empty where nothing does. */
  readonly against: string;
}

/** Share of what a first report leaves that a second must rule out to be named beside it. */
const LEAST_TELLING = 0.1;

interface Point {
  readonly observation: Observation;
  /** Prior probability of the explanations that the report rules out. */
  readonly telling: number;
}

/**
 * What speaks for one explanation: the report a sound system would not give that rules out
 * most others, beside the report of what is as it should be that rules out most of the rest.
 */
export function explain(
  model: Model,
  { hypothesis, against }: Explanation,
  observations: readonly Observation[],
): Reasons {
  const wrong = new Set(against);
  const sound = model.singles.length - 1;
  const amiss: Point[] = [];
  const asShould: Point[] = [];
  for (const [place, observation] of observations.entries()) {
    if (wrong.has(place)) continue;
    const { agrees } = evidenceOf(model, observation);
    const point = { observation, telling: ruledOut(model, agrees) };
    (agrees[sound] ? asShould : amiss).push(point);
  }
  const [first, second, joined] =
    hypothesis.faults.length > 1
      ? forEach(model, hypothesis, amiss)
      : beside(model, hypothesis.id === SOUND ? asShould : amiss, asShould);
  return {
    because: first
      ? `Because ${told(model, joined, first.observation, second?.observation)}.`
      : 'Nothing reported speaks for it but how often it happens.',
    against:
      against.length > 0
        ? `Against it: ${against.map((at) => told(model, '', observations[at]!)).join('; ')}.`
        : '',
  };
}

type Chosen = readonly [first: Point | undefined, second: Point | undefined, joined: string];

/** The report that rules out most, and one of what is as it should be that rules out the rest. */
function beside(model: Model, points: readonly Point[], asShould: readonly Point[]): Chosen {
  const first = mostTelling(points);
  if (!first) return [undefined, undefined, 'while'];
  const others = asShould.filter((p) => p !== first && narrows(model, first, p));
  // A reading is set beside a reading of the same mode, where one tells enough.
  const { kind, mode } = first.observation;
  const alike = others.filter(({ observation: o }) => o.kind === kind && o.mode === mode);
  return [first, mostTelling(alike) ?? mostTelling(others), 'while'];
}

/** For each of two faults the report that rules out most of those it alone accounts for. */
function forEach(model: Model, { faults }: Hypothesis, amiss: readonly Point[]): Chosen {
  const [a, b] = faults.map(({ id }) => model.singles.findIndex((s) => s.id === id));
  const agrees = (p: Point, at: number | undefined) =>
    at !== undefined && evidenceOf(model, p.observation).agrees[at] === 1;
  const first = mostTelling(amiss.filter((p) => agrees(p, a) && !agrees(p, b)));
  const second = mostTelling(amiss.filter((p) => agrees(p, b) && !agrees(p, a)));
  const rest = mostTelling(amiss.filter((p) => p !== first && p !== second));
  return first ? [first, second ?? rest, 'and'] : [second ?? rest, second && rest, 'and'];
}

/** One or two reports as a clause, each with its mode, which is said once where it is the same. */
function told(model: Model, joined: string, one: Observation, two?: Observation): string {
  const { network } = model.simulation;
  const clause = (o: Observation) => lowerFirst(clauseOf(network, o));
  const mode = (o: Observation) => ` (${modeTitle(network, o.mode)})`;
  if (!two) return clause(one) + mode(one);
  const first = one.mode === two.mode ? clause(one) : clause(one) + mode(one);
  return `${first} ${joined} ${clause(two)}${mode(two)}`;
}

/** Why a test comes next, in one sentence. */
export function whyNext(model: Model, choice: Choice, ranking: Ranking): string {
  const { network } = model.simulation;
  const { test, again, aim } = choice;
  const subject = subjectOf(network, askedBy(test));
  if (again)
    return `Read again: ${subject} does not fit with everything else; a second reading shows whether it was misread.`;
  const [one, two] = rivals(model, ranking, test.id);
  if (!one || !two) return `It rules out whatever else would show the same so far.`;
  return aim === 'make sure'
    ? `To make sure: ${one} is all but certain, and ${two} would show the same so far.`
    : `It shows whether it is ${one} or ${two}.`;
}

/** The likeliest explanation, and the likeliest that answers the test otherwise and needs another repair. */
function rivals(model: Model, { explanations }: Ranking, test: string): (string | undefined)[] {
  const at = model.testAt.get(test)!;
  const [top] = explanations;
  const rest = explanations.find(
    ({ hypothesis: { row, repairKey, faults } }) =>
      // What is not worked out yet answers nothing for certain.
      (row !== null || faults.length > 1) &&
      repairKey !== top!.hypothesis.repairKey &&
      row?.[at] !== top!.hypothesis.row?.[at],
  );
  return [top, rest].map((e) => e && `“${lowerFirst(e.hypothesis.title)}”`);
}

const mostTelling = (points: readonly Point[]): Point | undefined =>
  points.toSorted((a, b) => b.telling - a.telling)[0];

/** Whether a second report rules out much that the first leaves. */
function narrows(model: Model, first: Point, second: Point): boolean {
  const one = evidenceOf(model, first.observation).agrees;
  const two = evidenceOf(model, second.observation).agrees;
  let left = 0;
  let out = 0;
  for (const [i, { prior }] of model.singles.entries()) {
    if (!one[i]) continue;
    left += prior;
    if (!two[i]) out += prior;
  }
  return out > left * LEAST_TELLING;
}

function ruledOut({ singles }: Model, agrees: Uint8Array): number {
  return singles.reduce((sum, { prior }, i) => sum + (agrees[i] ? 0 : prior), 0);
}
