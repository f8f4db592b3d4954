import type { System } from '../../../schemas/index.ts';
import { buildNetwork, type Change, changeNetwork, type Network } from '../../circuit/index.ts';
import type { ColourCode } from '../../published/index.ts';
import { itemOf } from '../points.ts';
import { type CoreEnd, coreEnds, looseCoreEnd, moveCoreEnd } from '../rewire.ts';

/** Where one core's end is found: a terminal, or null where it lies loose. */
export interface FoundEnd extends CoreEnd {
  readonly point: string | null;
}

/** A core of a cable, by cable and colour. */
export interface CoreName {
  readonly cable: string;
  readonly colour: ColourCode;
}

/** All that is otherwise than the entry says. Empty lists: wired as the entry shows. */
export interface AsFound {
  /** Core ends in another terminal than the entry's, or loose. */
  readonly ends: readonly FoundEnd[];
  /** Cores that are not there at all, cut short or of a cable with fewer. */
  readonly missingCores: readonly CoreName[];
  /** Links of the entry that are not fitted, by their place in its list. */
  readonly missingLinks: readonly number[];
  /** Links that are fitted and not in the entry. */
  readonly extraLinks: readonly (readonly [string, string])[];
  /** Contacts bridged from end to end, by branch id. */
  readonly bridged: readonly string[];
  /** Items that are not there; their cores end loose. */
  readonly absent: readonly string[];
  /** Fuses of another rating, A, by branch id. */
  readonly ratings: Readonly<Record<string, number>>;
}

/** Wired as the entry shows. */
export const AS_ENTRY: AsFound = {
  ends: [],
  missingCores: [],
  missingLinks: [],
  extraLinks: [],
  bridged: [],
  absent: [],
  ratings: {},
};

/** Resistance of a bridge or link somebody fitted, ohms. */
const LINK_OHMS = 0.005;

/** What the wiring of a system as found is, core by core. */
export function foundSystem(system: System, found: AsFound): System {
  let now: System = system;
  for (const { point, ...end } of found.ends) {
    now = point === null ? looseCoreEnd(now, end) : moveCoreEnd(now, end, point);
  }
  for (const item of found.absent) {
    for (const end of coreEnds(now)) {
      if (itemOf(end.point) === item) now = looseCoreEnd(now, end);
    }
  }
  const cables = Object.fromEntries(
    Object.entries(now.cables).map(([reference, cable]) => {
      const gone = found.missingCores.filter((c) => c.cable === reference).map((c) => c.colour);
      if (gone.length === 0) return [reference, cable] as const;
      const cores = Object.entries(cable.cores).filter(
        ([colour]) => !gone.includes(colour as ColourCode),
      );
      return [reference, { ...cable, cores: Object.fromEntries(cores) }] as const;
    }),
  );
  return { ...now, cables, links: now.links.filter((_, i) => !found.missingLinks.includes(i)) };
}

/**
 * The circuit as found.
 * @throws RangeError when something named is not in the system.
 */
export function foundNetwork(intended: Network, found: AsFound): Network {
  const devices = new Map([...intended.items.values()].map((i) => [i.deviceId, i.device]));
  const system = foundSystem(intended.system, found);
  const changes: Change[] = [
    ...found.extraLinks.map(([from, to]) => ({ kind: 'join' as const, from, to, ohms: LINK_OHMS })),
    ...found.bridged.map((branch) => ({ kind: 'closed' as const, branch })),
    ...Object.entries(found.ratings).map(([branch, rating]) => ({
      kind: 'rated' as const,
      branch,
      rating,
    })),
  ];
  return changeNetwork(buildNetwork(intended.id, system, devices), changes);
}
