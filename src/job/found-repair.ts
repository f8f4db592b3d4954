import {
  type Case,
  type Hypothesis,
  type RankedRepair,
  reasons,
  SOUND,
} from '../diagnosis/inference/index.ts';
import type { FoundCause, FoundRepair } from './findings.ts';

/** Causes of a repair that are told, at most. */
const MOST_CAUSES = 4;
/** Causes with less of their repair's share than this are not listed. */
const LEAST_CAUSE = 0.02;

function familyOf({ faults: [fault, second] }: Hypothesis): FoundCause['family'] {
  if (!fault) return 'sound';
  return second && second.family !== fault.family ? null : fault.family;
}

/** Cells, a lever, a pairing and a tripped MCB are put right with every cover on, as a dial is. */
const isSetByHand = ({ faults }: Hypothesis): boolean =>
  faults.length > 0 && faults.every(({ origin }) => origin === 'setting');

/**
 * A repair of a ranking, as it is told.
 * @param why what speaks for it and against it; by default what was found up to now
 */
export function repairOf(
  { key, repair, share, explanations }: RankedRepair,
  open: Case,
  why: Pick<FoundRepair, 'because' | 'against'> = reasons(open, explanations[0]!),
): FoundRepair {
  const [top] = explanations;
  const causes = explanations.filter((one, i) => i === 0 || one.share >= share * LEAST_CAUSE);
  return {
    key,
    repair,
    share,
    causes: causes.slice(0, MOST_CAUSES).map(({ hypothesis, share: own }) => ({
      title: hypothesis.title,
      family: familyOf(hypothesis),
      share: own,
      hazard: hypothesis.faults.flatMap(({ hazard }) => hazard ?? []).join(' ') || null,
      says: hypothesis.repair === repair ? null : hypothesis.repair,
    })),
    more: Math.max(0, causes.length - MOST_CAUSES),
    ...why,
    who: [...new Set(top!.hypothesis.faults.map(({ who }) => who))],
    proving: [...new Set(top!.hypothesis.faults.map(({ proving }) => proving))].join(' '),
    setByHand: isSetByHand(top!.hypothesis),
    two: top!.hypothesis.faults.length > 1,
    sound: top!.hypothesis.id === SOUND,
    asItIs: top!.hypothesis.circumstance !== undefined,
    safeguard: top!.hypothesis.circumstance?.safeguard === true,
  };
}
