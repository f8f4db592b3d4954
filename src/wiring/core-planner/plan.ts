import { allocate } from './allocate.ts';
import { type CoreNeed, groupsOf, type NeedGroup } from './functions.ts';
import { notesOf, type PlanNote } from './notes.ts';
import { type PlannedCable, share } from './partition.ts';
import type { CoreRequest } from './request.ts';
import { type CableSet, setOf } from './sets.ts';

/** Which cables, and which core carries what. */
export interface CorePlan {
  readonly cables: readonly PlannedCable[];
  /** Needs that the cable there has no core for; empty where cables were chosen. */
  readonly homeless: readonly CoreNeed[];
  /** Cores asked for, the protective conductor counted once. */
  readonly needed: number;
  readonly notes: readonly PlanNote[];
}

/**
 * Plans the cores between two places. Where no cable is there, cables are chosen from the core
 * sets of HD 308 S2: mains apart from extra-low voltage, a protective conductor in every mains
 * cable where one is asked for, the first permanent live with its neutral, loops and pairs
 * undivided, and of all such choices the fewest cores. The same request gives the same plan.
 */
export function planCores({ counts, blueAsLive, there }: CoreRequest): CorePlan {
  const groups = groupsOf(counts);
  const asked = groups.flat();
  const set = there === null ? undefined : setOf(there);
  const { cables, homeless } = set
    ? fill(set, groups, blueAsLive)
    : { cables: choose(groups, blueAsLive), homeless: [] };
  return { cables, homeless, needed: asked.length, notes: notesOf(cables, asked) };
}

function choose(groups: readonly NeedGroup[], blueAsLive: boolean): readonly PlannedCable[] {
  const earth = groups.find(([need]) => need?.use === 'earth')?.[0];
  const of = (...uses: readonly CoreNeed['use'][]) =>
    groups.filter(([need]) => need && uses.includes(need.use));
  const [live, neutral] = (['live', 'neutral'] as const).map((id) =>
    groups.find(([need]) => need?.function === id),
  );
  const together = [...(live ?? []), ...(neutral ?? [])];
  const mains = of('line').filter((group) => group !== live);
  const low = of('extra-low');
  const anyMains = together.length + mains.length > 0;
  return [
    ...(anyMains
      ? share(together.length > 0 ? together : undefined, mains, earth, blueAsLive)
      : []),
    // A protective conductor that no mains cable takes goes with the extra-low voltage.
    ...(anyMains || !earth
      ? share(undefined, low, undefined, blueAsLive)
      : share(low[0] ?? [], low.slice(1), earth, blueAsLive)),
  ];
}

/** The supply comes first: a second live waits until the neutral has its core. */
const isExtraLive = (group: NeedGroup, groups: readonly NeedGroup[]): boolean =>
  group[0]?.function === 'live' && group !== groups.find(([need]) => need?.function === 'live');

/** Fills a cable that is there, in the functions' order, and names what finds no core. */
function fill(set: CableSet, groups: readonly NeedGroup[], blueAsLive: boolean) {
  const mains = groups.some(([need]) => need?.use === 'line' || need?.use === 'neutral');
  let home: readonly CoreNeed[] = [];
  const homeless: CoreNeed[] = [];
  const later = groups.filter((group) => isExtraLive(group, groups));
  for (const group of [...groups.filter((each) => !later.includes(each)), ...later]) {
    const apart = mains && group.some(({ use }) => use === 'extra-low');
    const more = [...home, ...group];
    if (!apart && allocate(set, more, blueAsLive)) home = more;
    else homeless.push(...group);
  }
  const cores = allocate(set, home, blueAsLive) ?? [];
  return { cables: [{ set, cores }], homeless };
}
