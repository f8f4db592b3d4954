import type { Fault } from '../faults/index.ts';

/** Faults that no allowed test tells apart. */
export interface AmbiguityGroup {
  readonly faults: readonly Fault[];
  /** Whether one repair mends them all, so that nobody need tell them apart. */
  readonly oneRepair: boolean;
  /** Why no reading tells them apart; empty for a single fault. */
  readonly reason: string;
  /** What would; empty where one repair mends them all. */
  readonly wouldTell: string;
}

/** Faults that no allowed test tells apart as a group, with its reason in words. */
export function ambiguityGroup(faults: readonly Fault[]): AmbiguityGroup {
  const oneRepair = new Set(faults.map((f) => f.repairKey)).size === 1;
  if (faults.length === 1) return { faults, oneRepair, reason: '', wouldTell: '' };
  return {
    faults,
    oneRepair,
    reason: reasonFor(faults),
    wouldTell: oneRepair ? '' : whatWouldTell(faults),
  };
}

const isPath = ({ id }: Fault) => /:(short|leak)$/.test(id);

function reasonFor(faults: readonly Fault[]): string {
  if (faults.every(isPath)) {
    return 'They join conductors that are joined elsewhere too: every reading sees them side by side.';
  }
  return 'No test in this order separates them.';
}

function whatWouldTell(faults: readonly Fault[]): string {
  if (faults.some((f) => f.class === 'secondSupply'))
    return 'It is live with the spur off: stop, put the cover back, label it, and have an electrician find the other supply.';
  const cables = [...new Set(faults.filter(isPath).map((f) => f.repairKey))];
  if (cables.length > 1 || (cables.length === 1 && faults.length > 1)) {
    return 'Isolated and proved dead: take the conductors off one cable or part at a time and repeat the dead test; when the reading clears, the last one taken off has it.';
  }
  if (faults.some((f) => f.origin === 'wiring mistake')) {
    return 'Isolated and proved dead: compare the cores in the terminals with the wiring table.';
  }
  if (faults.every((f) => f.class === 'burntJoint' || f.class === 'looseEnd'))
    return 'Under load, the volts across each joint: more than 0.5 V is a bad one. Joints at the spur or before it are an electrician’s.';
  return 'Isolated and proved dead: test each on its own with its cores off.';
}
