import { evidenceOf } from './likelihood.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import { questionKey, questionOf } from './question.ts';

/**
 * How far a circuit that the entry does not model strays from the one most like it, as the share
 * of questions that it answers otherwise: nobody knows, so every share is as likely, taken at the
 * middles of five equal parts.
 */
const STRAYS = [0.1, 0.3, 0.5, 0.7, 0.9] as const;

/** A product of likelihoods beyond these is taken the logarithm of before it is no number any more. */
const [LEAST, MOST] = [1e-200, 1e200];

/** What one question, however often it was asked, says of a circuit that strays. */
interface Asked {
  /** Likelihood of its reports where the circuit answers as each of the model's singles. */
  readonly alike: Float64Array;
  /** Places of the singles that answer otherwise than the sound system, the last of them: few. */
  readonly apart: Iterable<number>;
  /** The same where any of its answers is as likely. */
  readonly stray: number;
}

/**
 * Logarithm of the likelihood of everything reported under something that the entry does not
 * model. Such a circuit is as some single explanation would have it at most places and answers
 * anything at the rest: a flat distribution over a question's answers, and over how many of its
 * questions stray. What it answers it answers again, so a question asked twice strays once, and
 * each report of it is misread by itself.
 *
 * A flat answer to every question alone would be beaten by any two faults that fit: the
 * likelihood of ten plain readings as a sound system gives them would be one in a million.
 */
export function unmodelledLog(model: Model, observations: readonly Observation[]): number {
  const asked = [...Map.groupBy(observations, (one) => questionKey(questionOf(one))).values()].map(
    (reports) => askedOf(model, reports),
  );
  const priors = priorLogs(model);
  const logs = new Float64Array(STRAYS.length * priors.length);
  for (const [at, share] of STRAYS.entries())
    addStrayed(logs.subarray(at * priors.length, (at + 1) * priors.length), asked, share);
  for (let i = 0; i < logs.length; i++) logs[i]! += priors[i % priors.length]!;
  const most = logs.reduce((a, b) => Math.max(a, b));
  let sum = 0;
  for (let i = 0; i < logs.length; i++) sum += Math.exp(logs[i]! - most);
  return most + Math.log(sum);
}

const known = new WeakMap<Model, Float64Array>();

/** Logarithm of the share of each of the model's singles in one of the strays; once a model. */
function priorLogs(model: Model): Float64Array {
  const before = known.get(model);
  if (before) return before;
  const { singles } = model;
  const all = singles.reduce((sum, { prior }) => sum + prior, 0);
  const made = Float64Array.from(singles, ({ prior }) => Math.log(prior / all / STRAYS.length));
  known.set(model, made);
  return made;
}

/**
 * Adds the logarithm of the likelihood of every report where so large a share strays from a
 * single: what is said of the sound system once, and of the others where they part from it.
 * @param logs by single
 */
function addStrayed(logs: Float64Array, asked: readonly Asked[], share: number): void {
  const stays = 1 - share;
  const sound = logs.length - 1;
  const products = new Float64Array(logs.length).fill(1);
  const multiply = (i: number, by: number) => {
    const product = products[i]! * by;
    const isSafe = product > LEAST && product < MOST;
    products[i] = isSafe ? product : 1;
    if (!isSafe) logs[i]! += Math.log(product);
  };
  for (const { alike, apart, stray } of asked) {
    const strayed = share * stray;
    const common = stays * alike[sound]! + strayed;
    multiply(sound, common);
    for (const i of apart) multiply(i, (stays * alike[i]! + strayed) / common);
  }
  const common = logs[sound]! + Math.log(products[sound]!);
  for (let i = 0; i < sound; i++) logs[i]! += common + Math.log(products[i]!);
  logs[sound] = common;
}

function askedOf(model: Model, reports: readonly Observation[]): Asked {
  const evidence = reports.map((report) => evidenceOf(model, report));
  const product = (lists: readonly Float64Array[]) =>
    lists.reduce((a, b) => a.map((each, i) => each * b[i]!));
  const anywhere = product(evidence.map((one) => one.anywhere));
  const [first] = evidence;
  return {
    alike: product(evidence.map(({ likelihood }) => likelihood)),
    apart:
      evidence.length === 1 ? first!.apart : new Set(evidence.flatMap((one) => [...one.apart])),
    stray: anywhere.reduce((sum, each) => sum + each, 0) / anywhere.length,
  };
}
