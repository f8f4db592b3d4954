import { type Network, REFERENCE } from '../circuit/index.ts';
import { EXTRA_LOW_NO_EARTH, EXTRA_LOW_PAIR } from '../words/index.ts';
import { pointsByItem } from './points.ts';
import { waysFrom } from './reach.ts';

const known = new WeakMap<Network, ReadonlySet<string>>();

/** Terminals that cores and wire links join to a side of an extra-low-voltage pair, at every end. */
export function extraLowPoints(network: Network): ReadonlySet<string> {
  const before = known.get(network);
  if (before) return before;
  const points = new Set<string>();
  for (const { index, terminal } of network.nodes) {
    if (terminal?.carries !== 'call' && terminal?.voltage !== 'extra-low') continue;
    const joined = waysFrom(
      network,
      index,
      ({ kind }) => kind === 'conductor' || kind === 'wire link',
    );
    for (const node of joined.keys())
      if (node !== REFERENCE && network.nodes[node]!.terminal) points.add(network.nodes[node]!.id);
  }
  known.set(network, points);
  return points;
}

/** What to mind at an item where an extra-low-voltage pair ends; empty where none does. */
export function extraLowCaution(network: Network, item: string): string {
  const isThere = [...extraLowPoints(network)].some((point) => point.startsWith(`${item}.`));
  if (!isThere) return '';
  const earths = pointsByItem(network).find((points) => points.item === item)?.earths ?? [];
  return earths.length > 0 ? EXTRA_LOW_PAIR : `${EXTRA_LOW_PAIR} ${EXTRA_LOW_NO_EARTH}`;
}
