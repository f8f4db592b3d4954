import { SOUND } from './hypothesis.ts';
import { evidenceOf } from './likelihood.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import type { Explanation, RankedRepair, Ranking } from './posterior.ts';
import { provingTest } from './proving.ts';

/** Certainty from which on a cause may be called found: `very likely` on the published scale. */
export const FOUND_SHARE = 0.9;

/**
 * How much of what else explains the other reports must answer a test otherwise, for it to be the
 * test that found the cause: more of it than not.
 */
const OTHERWISE = 0.5;

/**
 * The repair that what was reported has found, or null: it is certain enough, and at least one
 * report would have been another had its cause been absent. What is certain by its prior alone,
 * or by a complaint that many causes share, is not found; nor is a part before it is proved.
 */
export function foundRepair(
  model: Model,
  ranking: Ranking,
  observations: readonly Observation[],
): RankedRepair | null {
  const [top] = ranking.repairs;
  // That nothing is wrong is never found: the customer saw something.
  if (!top || top.share <= FOUND_SHARE || top.key === SOUND) return null;
  if (provingTest(model, ranking, observations) !== null) return null;
  const sound = model.singles.length - 1;
  const amiss = observations.flatMap((one, at) =>
    evidenceOf(model, one).agrees[sound] === 0 ? at : [],
  );
  const others = ranking.explanations.filter(({ hypothesis }) => hypothesis.repairKey !== top.key);
  return observations.some(
    (one, place) =>
      // The other reports alone show that something is amiss.
      amiss.some((at) => at !== place) &&
      !top.explanations[0]!.against.includes(place) &&
      isTelling(model, others, one),
  )
    ? top
    : null;
}

/**
 * Whether a report that a cause predicts tells it: of what else explains the others, most would
 * have answered this otherwise.
 * @param others explanations by other causes
 */
function isTelling(
  model: Model,
  others: readonly Explanation[],
  observation: Observation,
): boolean {
  const { of } = evidenceOf(model, observation);
  let all = 0;
  let otherwise = 0;
  for (const { hypothesis, share } of others) {
    const { log, agrees } = of(hypothesis);
    // Its share had this one report not been made.
    const without = share / Math.exp(log);
    all += without;
    if (!agrees) otherwise += without;
  }
  return otherwise > OTHERWISE * all;
}
