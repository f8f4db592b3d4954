import type { Network } from '../../circuit/index.ts';
import { placeOfTerminal, placesOf } from '../../site/index.ts';
import { coreEnds } from '../../wiring/index.ts';
import type { Fault, FaultKind } from './index.ts';

/** Kinds that a look inside and a tug at each core find: loose, scorched, wet, a link out or left in. */
const INSIDE: ReadonlySet<FaultKind> = new Set([
  'looseEnd',
  'neutralOpen',
  'earthOpen',
  'burntJoint',
  'damp',
  'linkOut',
  'linkLeftIn',
  'loopLinked',
  'killedBoard',
]);

/** Kinds that comparing each core with the wiring table finds. */
const COMPARED: ReadonlySet<FaultKind> = new Set([
  'wrongTerminal',
  'crossed',
  'switchedFeed',
  'crossedValves',
  'polarity',
  'linkOut',
  'linkLeftIn',
  'loopLinked',
  'earthAsLive',
  'borrowedNeutral',
  'shortCable',
  'looseEnd',
]);

/** Share of what is to be seen at a place that looking or comparing finds (derived from two shares, from memory: of loose cores 0.40 are seen and 0.45 found by the tug). */
export const SEEN_SHARE = 0.85;

/**
 * Places at which a fault is to be seen, by what is done there: in an open box, or with the head
 * off a valve, whose spindle then turns or does not.
 */
export function seenAt(
  network: Network,
  fault: Fault,
): Record<'inside' | 'compare' | 'spindle', Set<string>> {
  const places = new Set(
    touchedPoints(network, fault).flatMap((point) => placeOfTerminal(network, point)?.id ?? []),
  );
  const none = new Set<string>();
  // A core broken along its length shows in no box.
  const hidden = fault.id.endsWith(':broken');
  return {
    inside: INSIDE.has(fault.class) && !hidden ? places : none,
    compare: COMPARED.has(fault.class) && !hidden ? places : none,
    spindle: fault.class === 'seized' ? spindlesOf(network, fault) : none,
  };
}

/** Places at which the spindle of a fault's valve is bare. */
const spindlesOf = (network: Network, { id }: Fault): Set<string> =>
  new Set(
    placesOf(network).flatMap((place) =>
      place.opening.spindle && id.startsWith(`${place.item}:`) ? place.id : [],
    ),
  );

/** Terminals that a fault's edit takes hold of. */
function touchedPoints({ system, nodeIndex }: Network, { edit: { touches } }: Fault): string[] {
  const ends = new Map(
    coreEnds(system).map(({ cable, colour, end, point }) => [
      `end ${cable}.${colour}@${end + 1}`,
      point,
    ]),
  );
  return touches
    .flatMap((touch) => {
      const end = ends.get(touch);
      if (end) return [end];
      if (touch.startsWith('join ')) return touch.slice(5).split('|');
      const link = /^branch link ([0-9]+)$/.exec(touch);
      return link ? [...(system.links[Number(link[1]) - 1]?.between ?? [])] : [];
    })
    .filter((point) => nodeIndex.has(point));
}
