import { CLASS_LIMITS, classOf } from '../../circuit/index.ts';
import { volts } from '../../units/index.ts';
import { SEEN_SHARE } from '../faults/index.ts';
import { JOINED_OHMS, OPEN_OHMS } from '../tests/index.ts';
import { ANSWER_CODES, INSPECT } from './codes.ts';
import type { Hypothesis } from './hypothesis.ts';
import type { Model } from './model.ts';
import { answerWord, isDirect, type Observation, typedFigure } from './observation.ts';
import { CLOSENESS, MISREADING } from './priors.ts';
import { alphabetOf, questionOf } from './question.ts';

/**
 * Likelihood: how probable what was reported is under each explanation. An answer that the
 * explanation predicts has the probability of no misreading; any other shares that of a
 * misreading; a typed figure is weighed by its closeness to the figure predicted.
 */

/** How probable an observation is under one explanation. */
export interface Likelihood {
  /** Natural logarithm of the probability; of the density where a figure was typed. */
  readonly log: number;
  /** Whether the explanation predicts it, so that it need be no misreading. */
  readonly agrees: boolean;
}

/** Probability that an observation of this kind, with this answer, is a misreading. */
export const misreadingOf = ({
  kind,
  answer,
}: {
  readonly kind: Observation['kind'];
  readonly answer: unknown;
}): number => {
  if (answer === 'found') return MISREADING.found;
  return kind === 'look' ? MISREADING.look : MISREADING.reading;
};

/** Answers that nothing unsettled gives; a question has one of them at most. */
const NEVER_UNSETTLED: readonly number[] = [ANSWER_CODES.joined, ANSWER_CODES.high];

/** The likelihood of one observation where a circuit gives an answer, by its code. */
export type Judge = (code: number, figure: () => number) => Likelihood;

/**
 * The likelihood of an observation by the answer that an explanation predicts: one less the
 * probability of a misreading where it is the answer observed, that probability spread evenly
 * over the other answers where it is not. A figure typed between the classes is weighed by its
 * closeness to the figure predicted. Where the answer is unsettled, `high` and `joined` are
 * misreadings, which neither ghost volts nor a board can give; any of the others is as likely.
 * So it is with no short, where a board decides between a resistance and open.
 */
function judgeOf(
  observation: Observation,
  closeness: ((computed: number) => number) | null,
): Judge {
  const code = ANSWER_CODES[answerWord(observation)];
  const beside = neighbourClass(observation);
  const slip = misreadingOf(observation);
  const { first, size } = alphabetOf(questionOf(observation));
  const others = size - 1;
  const wrong: Likelihood = { log: Math.log(slip / others), agrees: false };
  const right: Likelihood = { log: Math.log(1 - slip), agrees: true };
  const never = NEVER_UNSETTLED.includes(code);
  const one = NEVER_UNSETTLED.some((other) => other >= first && other < first + size);
  const either: Likelihood = {
    log: Math.log(one ? (1 - slip / others) / others : 1 / size),
    agrees: true,
  };
  // Looking and tugging miss some of what is to be seen.
  const seen: Likelihood = { log: Math.log(SEEN_SHARE), agrees: true };
  const overlooked: Likelihood = { log: Math.log(1 - SEEN_SHARE), agrees: true };
  const atLimit: Likelihood = { log: Math.log((1 - slip) / 2), agrees: true };
  return (predicted, figure) => {
    if (predicted === ANSWER_CODES.unsettled || predicted === ANSWER_CODES['no short'])
      return never ? wrong : either;
    if (predicted === beside) return atLimit;
    if (predicted === ANSWER_CODES.found) return code === predicted ? seen : overlooked;
    if (predicted !== code) return wrong;
    if (!closeness) return right;
    return { log: right.log + Math.log(closeness(figure())), agrees: true };
  };
}

/**
 * The likelihood of an observation under any explanation. Where the trouble comes and goes, a
 * fault that does so behaves well part of the time, and then answers as the sound system; what
 * is to be seen in an open box is there all the time.
 */
function likelihoodOf(model: Model, observation: Observation, judge: Judge) {
  const question = questionOf(observation);
  const answerOf = model.answersTo(question);
  const judged = (hypothesis: Hypothesis): Likelihood =>
    judge(answerOf(hypothesis), () => model.figure(hypothesis, question));
  const lasts = alphabetOf(question) === INSPECT;
  const well = judged(model.singles.at(-1)!);
  return (hypothesis: Hypothesis): Likelihood => {
    const own = judged(hypothesis);
    const behaves = lasts ? 0 : model.behavesWell(hypothesis);
    if (behaves === 0) return own;
    return {
      log: Math.log((1 - behaves) * Math.exp(own.log) + behaves * Math.exp(well.log)),
      agrees: own.agrees || well.agrees,
    };
  };
}

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
        ? { low: joinedIn(observation), high: OPEN_OHMS, spread: CLOSENESS.ohms }
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

const joinedIn = ({ answer }: Observation): number =>
  (typeof answer === 'object' && 'ohms' in answer ? answer.joined : undefined) ?? JOINED_OHMS;

/** The likelihood of one observation under every single fault, circumstance and the sound system. */
export interface Evidence {
  /** Natural logarithm of the likelihood, in the order of the model's singles. */
  readonly log: Float64Array;
  /** 1 where the explanation predicts it. */
  readonly agrees: Uint8Array;
  /** Places of the singles that do not predict it. */
  readonly unlike: Uint16Array;
  /** The likelihood itself, in the same order. */
  readonly likelihood: Float64Array;
  /** Places of the singles under which it is another than under the sound system, the last: few. */
  readonly apart: Uint16Array;
  /** The likelihood where a circuit that nobody computed gives each answer, any figure of its class. */
  readonly anywhere: Float64Array;
  /** The likelihood under any other explanation. */
  readonly of: (hypothesis: Hypothesis) => Likelihood;
  /** The likelihood by the answer that is predicted. */
  readonly judge: Judge;
}

const known = new WeakMap<Model, WeakMap<Observation, Evidence>>();

/** The evidence of an observation, worked out once. */
export function evidenceOf(model: Model, observation: Observation): Evidence {
  let kept = known.get(model);
  if (!kept) {
    kept = new WeakMap();
    known.set(model, kept);
  }
  let evidence = kept.get(observation);
  if (!evidence) {
    evidence = weighed(model, observation);
    kept.set(observation, evidence);
  }
  return evidence;
}

function weighed(model: Model, observation: Observation): Evidence {
  const code = ANSWER_CODES[answerWord(observation)];
  const judge = judgeOf(observation, closenessOf(observation, code));
  const workOut = likelihoodOf(model, observation, judge);
  const { singles } = model;
  const log = new Float64Array(singles.length);
  const agrees = new Uint8Array(singles.length);
  for (const [i, hypothesis] of singles.entries()) {
    const likelihood = workOut(hypothesis);
    log[i] = likelihood.log;
    agrees[i] = Number(likelihood.agrees);
  }
  const places = [...singles.keys()];
  const unlike = Uint16Array.from(places.filter((i) => agrees[i] === 0));
  const apart = Uint16Array.from(places.filter((i) => log[i] !== log[singles.length - 1]));
  const loose = judgeOf(observation, null);
  const { first, size } = alphabetOf(questionOf(observation));
  const anywhere = Float64Array.from({ length: size }, (_, i) =>
    Math.exp(loose(first + i, () => Number.NaN).log),
  );
  const of = (hypothesis: Hypothesis): Likelihood => {
    const at = model.placeOf(hypothesis);
    return at < 0 ? workOut(hypothesis) : { log: log[at]!, agrees: agrees[at] === 1 };
  };
  return { log, agrees, unlike, likelihood: log.map(Math.exp), apart, anywhere, of, judge };
}
