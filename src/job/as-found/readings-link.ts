import { z } from 'zod';
import type { Observation } from '../../diagnosis/inference/index.ts';
import { DAMAGED, type LinkProblem, MOST_LINK, seal, unseal } from '../../wiring/as-found/index.ts';
import { Observation as ObservationData } from '../job-schema.ts';

/** Most readings in a link. */
const MOST_READINGS = 60;
const Readings = z.array(ObservationData).max(MOST_READINGS);

/** Readings as text for a link; null where they are too many for one. */
export function readingsLink(
  system: string,
  wiring: number,
  readings: readonly Observation[],
): string | null {
  if (readings.length > MOST_READINGS) return null;
  const text = seal(system, wiring, readings);
  return text.length > MOST_LINK ? null : text;
}

/** Readings that came with a link, or why there are none. */
export type ReadReadings = { readonly readings: readonly Observation[] } | LinkProblem;

/**
 * Reads what `readingsLink` wrote. What of it the system can have is for the engine to say.
 * @param formerly ids that the system had before
 */
export function readReadingsLink(
  system: string,
  text: string,
  formerly: readonly string[] = [],
): ReadReadings {
  const opened = unseal(text);
  if ('problem' in opened) return opened;
  if (opened.system !== system && !formerly.includes(opened.system))
    return {
      problem: 'other system',
      message: `The readings of this link are of another system, ${opened.system}. They were not taken over.`,
    };
  const read = Readings.safeParse(opened.value);
  return read.success ? { readings: read.data } : DAMAGED;
}
