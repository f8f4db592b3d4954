import type { Symptom } from '../../schemas/index.ts';
import type { Simulation } from '../circuit/index.ts';
import type { Fault } from './faults/index.ts';
import { type NoFault, noFaultsShowing } from './no-fault.ts';
import type { Signature, Signatures } from './signatures.ts';
import { answersWanted, givesAll } from './signs.ts';

/** A system in all its modes, with what each of its faults shows. */
export interface SymptomSystem {
  readonly simulation: Simulation;
  readonly signatures: Signatures;
}

/** Causes that one repair mends. */
export interface CauseGroup {
  readonly repairKey: string;
  /** What mends it, in plain words: that of its likeliest fault. */
  readonly repair: string;
  /** How likely among all faults that show the symptom in this system, per cent. */
  readonly share: number;
  /** Likeliest first. */
  readonly faults: readonly Fault[];
}

/** What gives a symptom in one system. */
export interface SystemCauses {
  /** Entry id of the system. */
  readonly system: string;
  /** Which of the symptom's appearances this system can show and shows only when not sound. */
  readonly appearances: readonly number[];
  /** Nothing broken: safeguards first. */
  readonly noFaults: readonly NoFault[];
  /** Likeliest first. */
  readonly groups: readonly CauseGroup[];
}

/**
 * What gives a symptom in a system that can show it: the single faults whose circuit, as found,
 * gives every answer that some appearance asks for, grouped by repair; and single circumstances
 * that make a sound system look the same. Shares follow the faults' weights, orders of magnitude
 * only. Undefined of a system that cannot show the symptom, or shows it when sound; one that can
 * show it and has no single cause is there with none.
 */
export function causesIn(
  { shows }: Pick<Symptom, 'shows'>,
  { simulation, signatures }: SymptomSystem,
): SystemCauses | undefined {
  const { network } = simulation;
  const { tests, sound } = signatures;
  const able = shows.flatMap((appearance, index) =>
    answersWanted(appearance, network, tests)
      .filter((wanted) => !givesAll(wanted, sound))
      .map((wanted) => ({ appearance, index, wanted })),
  );
  if (able.length === 0) return undefined;
  const causes = signatures.faults.filter(({ answers }) =>
    able.some(({ wanted }) => givesAll(wanted, answers)),
  );
  const noFaults = able.flatMap(({ appearance, wanted }) =>
    noFaultsShowing(simulation, tests, appearance, wanted),
  );
  return {
    system: network.id,
    appearances: [...new Set(able.map(({ index }) => index))],
    noFaults: [...new Map(noFaults.map((one) => [one.id, one])).values()].toSorted(
      (a, b) => Number(b.safeguard) - Number(a.safeguard),
    ),
    groups: groupsOf(causes),
  };
}

/** Causes by repair, likeliest repair first; equal ones in the order of their faults. */
function groupsOf(causes: readonly Signature[]): CauseGroup[] {
  const weight = (faults: readonly Fault[]) => faults.reduce((sum, f) => sum + f.weight, 0);
  const all = causes.map(({ fault }) => fault);
  const total = weight(all);
  return [...Map.groupBy(all, ({ repairKey }) => repairKey)]
    .map(([repairKey, group]) => {
      const faults = group.toSorted((a, b) => b.weight - a.weight);
      const share = (100 * weight(group)) / total;
      return { repairKey, repair: faults[0]!.repair, share, faults };
    })
    .toSorted((a, b) => b.share - a.share);
}
