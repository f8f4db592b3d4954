import type { Network } from '../circuit/index.ts';
import { itemOf, nameOf, wayWords } from '../wiring/index.ts';

/**
 * Which item of one system stands where an item of another does: the same device first, then
 * another of its family, each in the order in which references are given. Boxes have no partner:
 * their ways are numbered as it pleased who wired them.
 */
export function partnersOf(a: Network, b: Network): ReadonlyMap<string, string> {
  const left = new Map([...b.items].filter(([, { device }]) => !isBox(device)));
  const partners = new Map<string, string>();
  const take = (item: string, fits: (other: string) => boolean) => {
    const other = [...left.keys()].find(fits);
    if (other === undefined || partners.has(item)) return;
    partners.set(item, other);
    left.delete(other);
  };
  const items = [...a.items].filter(([, { device }]) => !isBox(device));
  for (const [item, { deviceId }] of items)
    take(item, (other) => b.items.get(other)!.deviceId === deviceId);
  for (const [item, { device }] of items)
    take(item, (other) => b.items.get(other)!.device.family === device.family);
  return partners;
}

export const isBox = ({ family }: { readonly family: string }): boolean =>
  family === 'wiring centre';

/** Terminals that cores, wire links and ways of boxes join, but for those of boxes, by terminal. */
export function joinedTo(network: Network): ReadonlyMap<string, readonly string[]> {
  const near = new Map<number, number[]>();
  const join = (one: number, other: number) => near.set(one, [...(near.get(one) ?? []), other]);
  for (const { kind, from, to } of network.branches) {
    if (kind !== 'conductor' && kind !== 'wire link') continue;
    join(from, to);
    join(to, from);
  }
  const joined = new Map<string, readonly string[]>();
  const seen = new Set<number>();
  for (const { index } of network.nodes) {
    if (seen.has(index) || !near.has(index)) continue;
    seen.add(index);
    const net = [index];
    for (const node of net)
      for (const other of near.get(node) ?? []) {
        if (seen.has(other)) continue;
        seen.add(other);
        net.push(other);
      }
    const own = net
      .map((node) => network.nodes[node]!)
      .filter(({ terminal, item }) => terminal && item && !isBox(network.items.get(item)!.device))
      .map(({ id }) => id);
    for (const id of own) joined.set(id, own.filter((other) => other !== id).toSorted());
  }
  return joined;
}

/** A terminal with its item’s title: `switched live back, boiler`. */
export const terminalOf = (network: Network, point: string): string => {
  const title = network.items.get(itemOf(point))!.title.split(',')[0]!;
  return `${wayWords(point)}, ${title.toLowerCase()} ${itemOf(point)}`;
};

/** The terminal of the same name at the item’s partner; undefined where there is none. */
export function partnerPoint(
  partners: ReadonlyMap<string, string>,
  other: Network,
  point: string,
): string | undefined {
  const item = partners.get(itemOf(point));
  const there = item === undefined ? undefined : `${item}.${nameOf(point)}`;
  return there !== undefined && other.nodeIndex.has(there) ? there : undefined;
}
