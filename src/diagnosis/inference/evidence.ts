import type { Hypothesis } from './hypothesis.ts';
import { flatLog, type Judge, judgeOf, type Likelihood, likelihoodOf } from './likelihood.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';

/** What one observation says of every single fault and of the sound system. */
export interface Evidence {
  /** Logarithm of its likelihood, in the order of the model's singles. */
  readonly log: Float64Array;
  /** 1 where the explanation predicts it. */
  readonly agrees: Uint8Array;
  /** Logarithm of its likelihood under no explanation. */
  readonly flat: number;
  /** The same of any other explanation. */
  readonly of: (hypothesis: Hypothesis) => Likelihood;
  /** The same by the answer predicted. */
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
  const judge = judgeOf(observation);
  const of = likelihoodOf(model, observation, judge);
  const { singles } = model;
  const log = new Float64Array(singles.length);
  const agrees = new Uint8Array(singles.length);
  for (const [i, hypothesis] of singles.entries()) {
    const likelihood = of(hypothesis);
    log[i] = likelihood.log;
    agrees[i] = Number(likelihood.agrees);
  }
  return { log, agrees, flat: flatLog(observation), of, judge };
}
