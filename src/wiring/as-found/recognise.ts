import type { System } from '../../../schemas/index.ts';
import { type Change, isLooseEnd, type Network } from '../../circuit/index.ts';
import type { ColourCode } from '../../published/index.ts';
import { AS_ENTRY, type AsFound, coresOf, dueAt, type FoundEnd } from './state.ts';
import { isBridgeable, tidy } from './tidy.ts';

/**
 * The wiring as found that says the same as a system wired otherwise with some changes to its
 * circuit; null where it takes more than wiring, as a failed part does.
 * @param wired the intended system's cables with other ends, or without some cores.
 */
export function asFoundOf(
  intended: Network,
  wired: System,
  changes: readonly Change[],
): AsFound | null {
  let found: AsFound = { ...AS_ENTRY, ...coresAsFound(intended.system, wired) };
  for (const change of changes) {
    const next = withChange(intended, found, change);
    if (next === null) return null;
    found = next;
  }
  return tidy(intended, found);
}

function coresAsFound(system: System, wired: System): Pick<AsFound, 'cables' | 'ends'> {
  const cables: Record<string, readonly ColourCode[]> = {};
  const ends: FoundEnd[] = [];
  for (const [cable, due] of Object.entries(system.cables)) {
    const now = wired.cables[cable] ?? { ...due, cores: {}, spare: [] };
    const there = coresOf(now);
    if (there.toSorted().join() !== coresOf(due).toSorted().join()) cables[cable] = there;
    for (const colour of there)
      for (const end of [0, 1] as const) {
        const at = { cable, colour, end };
        const found = now.cores[colour]?.ends[end];
        const point = found === undefined || isLooseEnd(found) ? 'loose' : found;
        if (point !== dueAt(system, at)) ends.push({ ...at, point });
      }
  }
  return { cables, ends };
}

function withChange(intended: Network, found: AsFound, change: Change): AsFound | null {
  const link = (id: string) => /^link ([0-9]+)$/.exec(id)?.[1];
  switch (change.kind) {
    case 'join': {
      const isPoint = (id: string) =>
        intended.nodes[intended.nodeIndex.get(id) ?? -1]?.terminal !== undefined;
      // Anything but a piece of wire is damage, and mended as such.
      return change.ohms <= WIRE_OHMS && isPoint(change.from) && isPoint(change.to)
        ? { ...found, extraLinks: [...found.extraLinks, [change.from, change.to]] }
        : null;
    }
    case 'closed':
      return isBridgeable(intended, change.branch)
        ? { ...found, bridged: [...found.bridged, change.branch] }
        : null;
    case 'rated':
      return { ...found, ratings: { ...found.ratings, [change.branch]: change.rating } };
    case 'open': {
      const place = link(change.branch);
      return place === undefined
        ? null
        : { ...found, missingLinks: [...found.missingLinks, Number(place) - 1] };
    }
    case 'parted':
    case 'stuck':
    case 'welded':
    case 'series':
    case 'idle':
    case 'set':
      return null;
  }
}

/** Most that a link somebody fitted has, ohms. */
const WIRE_OHMS = 0.01;
