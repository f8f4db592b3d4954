import { CLASS_LIMITS, classOf } from '../../circuit/index.ts';
import { volts } from '../../units/index.ts';
import { JOINED_OHMS, OPEN_OHMS } from '../tests/index.ts';
import { ANSWER_CODES } from './codes.ts';
import type { Hypothesis } from './hypothesis.ts';
import { CLOSENESS, MISREADING } from './likely.ts';
import type { Model } from './model.ts';
import { answerWord, isDirect, type Observation, typedFigure } from './observation.ts';
import { alphabetOf, questionOf } from './question.ts';

/** How probable an observation is under one explanation. */
export interface Likelihood {
  /** Natural logarithm of the probability; of the density where a figure was typed. */
  readonly log: number;
  /** Whether the explanation predicts it, so that it need be no misreading. */
  readonly agrees: boolean;
}

/** Probability of a misreading of this kind of observation. */
export const misreadingOf = ({ kind }: Pick<Observation, 'kind'>): number =>
  kind === 'look' ? MISREADING.look : MISREADING.reading;

/** What an observation's probability is where a circuit gives an answer, by code. */
export type Judge = (code: number, figure: () => number) => Likelihood;

/**
 * The likelihood of an observation by the answer that an explanation predicts: one less the
 * probability of a misreading where it is the answer observed, that probability spread evenly
 * over the other answers where it is not. A figure typed between the classes is weighed by its
 * closeness to the figure predicted.
 */
export function judgeOf(observation: Observation): Judge {
  const code = ANSWER_CODES[answerWord(observation)];
  const beside = neighbourClass(observation);
  const slip = misreadingOf(observation);
  const others = alphabetOf(questionOf(observation)).size - 1;
  const wrong: Likelihood = { log: Math.log(slip / others), agrees: false };
  const right: Likelihood = { log: Math.log(1 - slip), agrees: true };
  const atLimit: Likelihood = { log: Math.log((1 - slip) / 2), agrees: true };
  const closeness = closenessOf(observation, code);
  return (predicted, figure) => {
    if (predicted === beside) return atLimit;
    if (predicted !== code) return wrong;
    if (!closeness) return right;
    return { log: right.log + Math.log(closeness(figure())), agrees: true };
  };
}

/** The likelihood of an observation under any explanation. */
export function likelihoodOf(model: Model, observation: Observation, judge: Judge) {
  const question = questionOf(observation);
  const answerOf = model.answersTo(question);
  return (hypothesis: Hypothesis): Likelihood =>
    judge(answerOf(hypothesis), () => model.figure(hypothesis, question));
}

/** The likelihood under no explanation at all: every answer alike. */
export const flatLog = (observation: Observation): number =>
  -Math.log(alphabetOf(questionOf(observation)).size);

/**
 * The class beyond the nearest limit where an alternating voltage was typed so near to it that
 * a supply a little higher or lower would have put it there; null elsewhere.
 */
function neighbourClass(observation: Observation): number | null {
  const figure = typedFigure(observation);
  if (observation.kind !== 'live' || figure === null || isDirect(observation)) return null;
  const own = classOf(volts(figure));
  for (const limit of Object.values(CLASS_LIMITS)) {
    if (Math.abs(figure - limit) > limit * CLOSENESS.atLimit) continue;
    const across = classOf(volts(figure <= limit ? limit * 1.001 : limit * 0.999));
    if (across !== own) return ANSWER_CODES[across];
  }
  return null;
}

/**
 * Compares a typed figure with a computed one, where the class alone leaves much open:
 * density of the ratio's logarithm over the density of a figure anywhere in the class.
 */
function closenessOf(
  observation: Observation,
  code: number,
): ((computed: number) => number) | null {
  const figure = typedFigure(observation);
  if (figure === null) return null;
  const wide =
    code === ANSWER_CODES.between
      ? { low: CLASS_LIMITS.dead, high: CLASS_LIMITS.live, spread: CLOSENESS.volts }
      : code === ANSWER_CODES.resistance
        ? { low: JOINED_OHMS, high: OPEN_OHMS, spread: CLOSENESS.ohms }
        : null;
  if (!wide) return null;
  const { spread } = wide;
  const width = Math.log(wide.high / wide.low);
  return (computed) => {
    const off = Math.log(figure / computed) / spread;
    const peak = width / (spread * Math.sqrt(2 * Math.PI));
    return CLOSENESS.strayed + (1 - CLOSENESS.strayed) * peak * Math.exp((-off * off) / 2);
  };
}
