import type { Simulation } from '../../circuit/index.ts';
import { connectionFaults } from './connections.ts';
import type { Family } from './families.ts';
import type { Fault } from './fault.ts';
import { wiringMistakes } from './mistakes.ts';
import { partFaults } from './parts.ts';
import { settingFaults } from './settings.ts';
import { type FamilyShares, withShares } from './shares.ts';

export { compose, coresOf, type Edit, editedCircuit } from './edit.ts';
export {
  FAMILIES,
  FAMILY_SHARES,
  type Family,
  type FaultKind,
  HISTORIES,
  HISTORY_WORDS,
  type History,
  KINDS,
  SHARE_SOURCES,
} from './families.ts';
export type { Fault, Origin, Repair } from './fault.ts';
export { nodesOf } from './reach.ts';
export { type FamilyShares, OUR_SHARES } from './shares.ts';
export { SEEN_SHARE, seenAt } from './visible.ts';

/**
 * Every single fault of a system, generated: part failures, connections come apart, burnt or
 * wet, wiring mistakes, settings. Two that come to the same change are listed once, the first.
 * @param families how often each family is met; the table's own shares unless given
 */
export function faultsOf(simulation: Simulation, families?: FamilyShares): Fault[] {
  const { network } = simulation;
  const drafts = [
    ...settingFaults(network),
    ...partFaults(network),
    ...connectionFaults(network),
    ...wiringMistakes(simulation),
  ];
  return withShares([...new Map(drafts.map((draft) => [draft.id, draft])).values()], families);
}

/** The families of causes that a system has any of. */
export const familiesIn = (simulation: Simulation): ReadonlySet<Family> =>
  new Set(faultsOf(simulation).map(({ family }) => family));
