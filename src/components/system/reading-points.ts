import type { Network } from '../../circuit/index.ts';
import { changesCircuit, placesOf, readsAt } from '../../site/index.ts';
import type { TestPair } from '../../wiring/index.ts';
import { readingPlace } from './shown.ts';

/** What to know of a kind of pair, in a word or two. */
export const PAIR_NOTES: Partial<Record<TestPair['kind'], string>> = {
  across: 'across it',
  call: 'volts DC',
  'call to earth': 'no mains here, ever',
};

/** What is read at an item, and what is not. */
export interface ReadingPoints {
  /** Pairs read at the item itself. */
  readonly reached: readonly TestPair[];
  /** Terminals of its pairs that are read at another place, or nowhere. */
  readonly elsewhere: readonly string[];
  /** Terminals at which no pair is read: nothing is joined there, or nothing beside it. */
  readonly unread: readonly string[];
  /** Whether it is read on bare terminals, the device off its base. */
  readonly bare: boolean;
  /** Why some of its terminals are not read at it. */
  readonly why: readonly string[];
}

/** @param pairs all pairs of the item */
export function readingPoints(
  network: Network,
  item: string,
  pairs: readonly TestPair[],
): ReadingPoints {
  const reached = pairs.filter(({ from }) => readingPlace(network, from).here);
  const here = new Set(reached.flatMap(({ from, to }) => [from, to]));
  const points = new Set(pairs.flatMap(({ from, to }) => [from, to]));
  const places = placesOf(network).filter((place) => place.item === item);
  return {
    reached,
    elsewhere: [...points].filter((point) => !here.has(point)),
    unread: Object.keys(network.items.get(item)!.device.terminals)
      .map((name) => `${item}.${name}`)
      .filter((point) => !points.has(point)),
    bare: places.some((place) => changesCircuit(place) && readsAt(place) !== 'none'),
    why: [
      ...new Set(
        places.flatMap(({ terminals, opening }) => (terminals.length > 0 && opening.because) || []),
      ),
    ],
  };
}
