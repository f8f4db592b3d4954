import { SOUND } from './hypothesis.ts';
import { evidenceOf } from './likelihood.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import type { RankedRepair, Ranking } from './posterior.ts';
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
  return observations.some((_, place) => isTelling(model, ranking, top, observations, place))
    ? top
    : null;
}

/**
 * Whether a report tells a cause: the cause predicts it; the other reports alone show that
 * something is amiss; and of what else explains those, most would have
 * answered this otherwise.
 */
function isTelling(
  model: Model,
  { explanations }: Ranking,
  { key, explanations: [cause] }: RankedRepair,
  observations: readonly Observation[],
  place: number,
): boolean {
  const observation = observations[place]!;
  const { of } = evidenceOf(model, observation);
  const { against } = cause!;
  if (against.includes(place)) return false;
  const sound = model.singles.length - 1;
  const amiss = observations.some(
    (other, at) => at !== place && evidenceOf(model, other).agrees[sound] === 0,
  );
  if (!amiss) return false;
  let all = 0;
  let otherwise = 0;
  for (const { hypothesis: other, share } of explanations) {
    if (other.repairKey === key) continue;
    const { log, agrees } = of(other);
    // Its share had this one report not been made.
    const without = share / Math.exp(log);
    all += without;
    if (!agrees) otherwise += without;
  }
  return otherwise > OTHERWISE * all;
}
