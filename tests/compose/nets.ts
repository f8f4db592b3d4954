import type { System } from '../../schemas/index.ts';
import type { Catalogue } from '../../src/compose/index.ts';

/**
 * Which terminals a system's cores and links join, boxes contracted: each net as its terminals
 * in order, the nets in order. What lies inside devices joins nothing here.
 */
export function netsOf({ items, cables, links }: System, { devices }: Catalogue): string[] {
  const joined = new Map<string, string>();
  const root = (point: string): string => {
    const up = joined.get(point);
    return up === undefined ? point : root(up);
  };
  const join = ([a, b]: readonly [string, string]) => {
    const [from, to] = [root(a), root(b)];
    if (from !== to) joined.set(from, to);
  };
  const ends = Object.values(cables).flatMap(({ cores }) =>
    Object.values(cores).map((core) => core!.ends),
  );
  for (const pair of [...ends, ...links.map(({ between }) => between)]) join(pair);
  const nets = new Map<string, Set<string>>();
  for (const point of ends.flat()) {
    const net = nets.get(root(point)) ?? new Set();
    nets.set(root(point), net);
    const family = devices.get(items[point.split('.')[0]!]!.device)!.family;
    if (family !== 'wiring centre') net.add(point);
  }
  for (const { between } of links) for (const point of between) nets.get(root(point))?.add(point);
  return [...nets.values()]
    .map((net) =>
      [...net]
        .filter((point) => !point.startsWith('X'))
        .toSorted()
        .join(' '),
    )
    .filter((net) => net.includes(' '))
    .toSorted();
}

/** Colour of every core of a lead that an item comes with, by the terminal it ends at. */
export const leadColours = ({ cables }: System): ReadonlyMap<string, string> =>
  new Map(
    Object.values(cables)
      .filter(({ kind }) => kind === 'fixed lead')
      .flatMap(({ cores }) =>
        Object.entries(cores).map(([colour, core]) => [core!.ends[1], colour] as const),
      ),
  );
