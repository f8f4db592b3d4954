import type { Simulation } from '../../../circuit/index.ts';
import { supplyEnd } from './circuits.ts';
import { functionHazards } from './function.ts';
import { byGravity, type Hazard } from './hazard.ts';
import { protectionHazards } from './protection.ts';
import { shockHazards } from './shock.ts';

export { HAZARD_KINDS, type Hazard, type HazardKind } from './hazard.ts';

/**
 * The dangers of a circuit as found, beside the circuit its entry intends, gravest first.
 * Each rule looks at the solved circuit, not at how it came about, so that it holds for any
 * mistake.
 * @param found the circuit as found, in the modes of the entry, from the moment the supply is
 *   put on with every fuse whole: what a blown fuse hides is found too.
 * @param intended the circuit of the entry.
 */
export function hazardsOf(found: Simulation, intended: Simulation): Hazard[] {
  const earth = supplyEnd(intended.network, 'earth');
  if (earth === null) return [];
  const circuits = { found, intended, earth };
  return byGravity([
    ...shockHazards(circuits),
    ...protectionHazards(circuits),
    ...functionHazards(circuits),
  ]);
}
