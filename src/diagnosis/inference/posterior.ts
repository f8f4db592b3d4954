import type { Hypothesis } from './hypothesis.ts';
import { evidenceOf } from './likelihood.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import { ALLOWED_MISREADINGS, PRIOR, UNEXPLAINED_TRIP } from './priors.ts';
import { unmodelledLog } from './unmodelled.ts';

/** One explanation with its posterior probability, given everything reported. */
export interface Explanation {
  readonly hypothesis: Hypothesis;
  /** Posterior probability. */
  readonly share: number;
  /** Places of the observations it does not predict: misreadings, if it is the truth. */
  readonly against: readonly number[];
}

/** Explanations that one repair mends. */
export interface RankedRepair {
  readonly key: string;
  readonly repair: string;
  readonly share: number;
  /** Likeliest first. */
  readonly explanations: readonly Explanation[];
}

/** The posterior probabilities of all explanations. Shares add up to one. */
export interface Ranking {
  /** Likeliest first; equals in the order of the faults. */
  readonly explanations: readonly Explanation[];
  /** The same by repair, likeliest first. */
  readonly repairs: readonly RankedRepair[];
  /** Share of what the entry does not model. */
  readonly notAsShown: number;
}

/**
 * The posterior of every explanation by Bayes' rule: its prior, times the likelihood of each
 * observation, each misread independently of the others.
 * @param pairs explanations by two faults, beside the model's single ones.
 */
export function posterior(
  model: Model,
  observations: readonly Observation[],
  pairs: readonly Hypothesis[],
): Ranking {
  const hypotheses = [...model.singles, ...pairs];
  const told = toldOf(model, observations);
  const log = Float64Array.from(
    hypotheses,
    ({ prior }, i) => Math.log(prior) + (told.logs[i] ?? 0),
  );
  const flat = Math.log(PRIOR.notAsShown) + unmodelledLog(model, observations);
  const against: readonly number[][] = [...told.against, ...pairs.map(() => [])];
  for (let at = 0; at < observations.length; at++) {
    const { of } = evidenceOf(model, observations[at]!);
    for (let i = model.singles.length; i < hypotheses.length; i++) {
      const other = of(hypotheses[i]!);
      log[i]! += other.log;
      if (!other.agrees) against[i]!.push(at);
    }
  }
  const most = log.reduce((a, b) => Math.max(a, b), flat);
  const total = Math.exp(flat - most) + log.reduce((sum, l) => sum + Math.exp(l - most), 0);
  let notAsShown = Math.exp(flat - most) / total;
  const explanations = hypotheses
    .map((hypothesis, i) => {
      const whole = Math.exp(log[i]! - most) / total;
      const share = whole * ownShare(hypothesis);
      notAsShown += whole - share;
      return { hypothesis, share, against: against[i]! };
    })
    .sort((a, b) => b.share - a.share);
  return { explanations, repairs: byRepair(explanations), notAsShown };
}

/** What all that was reported says of each of a model's singles. */
interface Told {
  /** Logarithms of the likelihood of everything reported. */
  readonly logs: Float64Array;
  /** Places of the observations that each does not predict. */
  readonly against: readonly number[][];
}

/** Most observations say of most singles what they say of the sound system: only the others are added one by one. */
function toldOf(model: Model, observations: readonly Observation[]): Told {
  const sound = model.singles.length - 1;
  const logs = new Float64Array(model.singles.length);
  const against: number[][] = model.singles.map(() => []);
  let common = 0;
  for (let at = 0; at < observations.length; at++) {
    const { log, apart, unlike } = evidenceOf(model, observations[at]!);
    common += log[sound]!;
    for (const i of apart) logs[i]! += log[i]! - log[sound]!;
    for (const i of unlike) against[i]!.push(at);
  }
  return { logs: logs.map((log) => log + common), against };
}

/** Whether it is a blown fuse or a tripped breaker and nothing that made it so. */
export const isTripAlone = ({ faults: [fault, second] }: Hypothesis): boolean =>
  !second && (fault?.class === 'fuse' || fault?.class === 'breaker');

/** What is left of an explanation's share beside what the entry does not model that looks like it. */
const ownShare = (hypothesis: Hypothesis): number =>
  isTripAlone(hypothesis) ? 1 - UNEXPLAINED_TRIP : 1;

function byRepair(explanations: readonly Explanation[]): RankedRepair[] {
  const groups = Map.groupBy(explanations, ({ hypothesis }) => hypothesis.repairKey);
  return [...groups]
    .map(([key, members]) => ({
      key,
      repair: members[0]!.hypothesis.repair,
      share: members.reduce((sum, { share }) => sum + share, 0),
      explanations: members,
    }))
    .sort((a, b) => b.share - a.share);
}

/** Whether the likeliest single explanation leaves more unexplained than misreadings allow. */
export function needsPairs(model: Model, observations: readonly Observation[]): boolean {
  const { logs, against } = toldOf(model, observations);
  const whole = Float64Array.from(
    model.singles,
    (single, i) => Math.log(single.prior * ownShare(single)) + logs[i]!,
  );
  const top = whole.indexOf(whole.reduce((a, b) => Math.max(a, b)));
  return against[top]!.length > ALLOWED_MISREADINGS;
}
