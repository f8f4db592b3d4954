import { allocate, type PlannedCore } from './allocate.ts';
import type { CoreNeed, NeedGroup } from './functions.ts';
import { CABLE_SETS, type CableSet } from './sets.ts';

/** One cable of a plan. */
export interface PlannedCable {
  readonly set: CableSet;
  readonly cores: readonly PlannedCore[];
}

interface Shared {
  readonly cables: readonly PlannedCable[];
  /** Cores, cables, sleeves: less is better, the first that differs decides. */
  readonly cost: readonly [number, number, number];
}

/**
 * Shares groups of cores among cables: fewest cores, then fewest cables, then fewest sleeves;
 * of several equals the first found. Each group stays in one cable.
 * @param together a group that has to be in the first cable; undefined where there is none.
 * @param earth the protective conductor that every cable has to hold; undefined for none.
 */
export function share(
  together: NeedGroup | undefined,
  groups: readonly NeedGroup[],
  earth: CoreNeed | undefined,
  blueAsLive: boolean,
): readonly PlannedCable[] {
  const pairs = groups.filter((group) => group.length > 1);
  const singles = groups.filter((group) => group.length === 1);
  const known = new Map<string, Shared | null>();

  const best = (first: NeedGroup | undefined, p: number, s: number): Shared | null => {
    if (!first && p === pairs.length && s === singles.length)
      return { cables: [], cost: [0, 0, 0] };
    const key = `${first ? 1 : 0} ${p} ${s}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    let found: Shared | null = null;
    for (let morePairs = 0; p + morePairs <= pairs.length; morePairs++) {
      for (let moreSingles = 0; s + moreSingles <= singles.length; moreSingles++) {
        if (!first && morePairs + moreSingles === 0) continue;
        const needs = [
          ...(earth ? [earth] : []),
          ...(first ?? []),
          ...pairs.slice(p, p + morePairs).flat(),
          ...singles.slice(s, s + moreSingles).flat(),
        ];
        const cable = smallest(needs, earth !== undefined, blueAsLive);
        const rest = cable && best(undefined, p + morePairs, s + moreSingles);
        if (!rest) continue;
        const shared: Shared = {
          cables: [cable, ...rest.cables],
          cost: [
            cable.set.colours.length + rest.cost[0],
            1 + rest.cost[1],
            sleeves(cable) + rest.cost[2],
          ],
        };
        if (!found || isLess(shared.cost, found.cost)) found = shared;
      }
    }
    known.set(key, found);
    return found;
  };
  return best(together, 0, 0)?.cables ?? [];
}

/** The cable with fewest cores, then fewest sleeves, that takes all of some needs. */
function smallest(
  needs: readonly CoreNeed[],
  earthed: boolean,
  blueAsLive: boolean,
): PlannedCable | null {
  let found: PlannedCable | null = null;
  for (const set of CABLE_SETS) {
    if (set.earthed !== earthed) continue;
    const cores = allocate(set, needs, blueAsLive);
    if (!cores) continue;
    const cable = { set, cores };
    const larger = found && set.colours.length > found.set.colours.length;
    if (!found || (!larger && sleeves(cable) < sleeves(found))) found = cable;
  }
  return found;
}

const sleeves = ({ cores }: PlannedCable): number =>
  cores.filter(({ sleeve }) => sleeve !== null).length;

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((value, i) => value !== b[i]);
  return at >= 0 && a[at]! < b[at]!;
}
