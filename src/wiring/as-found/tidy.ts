import type { Network } from '../../circuit/index.ts';
import type { ColourCode } from '../../published/index.ts';
import { itemOf } from '../points.ts';
import { type AsFound, coresOf, dueAt, type FoundEnd, isTerminal } from './state.ts';

/**
 * The same wiring with nothing said twice and nothing said that is as the entry has it, in
 * one order: two states that mean the same are then equal.
 */
export function tidy(intended: Network, found: AsFound): AsFound {
  const { system } = intended;
  const cables = Object.fromEntries(
    Object.entries(found.cables)
      .map(([cable, cores]) => [cable, order([...new Set(cores)])] as const)
      .filter(([cable, cores]) => {
        const due = system.cables[cable];
        return due && order(coresOf(due)).join() !== cores.join();
      })
      .toSorted(([a], [b]) => compare(a, b)),
  );
  const absent = unique(found.absent);
  const there = ({ cable, colour }: FoundEnd) => {
    const due = system.cables[cable];
    return (cables[cable] ?? (due ? coresOf(due) : [])).includes(colour);
  };
  const ends = new Map(found.ends.map((end) => [endKey(end), end]));
  const missing = new Set(found.missingLinks);
  const extra = new Map(
    found.extraLinks.map(([a, b]) => {
      const pair = [a, b].toSorted(compare) as [string, string];
      return [pair.join('|'), pair] as const;
    }),
  );
  for (const [i, { between }] of system.links.entries()) {
    // Taken out and put in again is where it was; put in beside itself changes nothing.
    if (extra.delete(between.toSorted(compare).join('|'))) missing.delete(i);
  }
  return {
    cables,
    ends: [...ends.values()]
      .filter((end) => there(end) && end.point !== dueAt(system, end))
      .filter((end) => !absent.includes(itemOf(dueAt(system, end))) || isTerminal(end.point))
      .toSorted((a, b) => compare(endKey(a), endKey(b))),
    missingLinks: [...missing].filter((i) => system.links[i]).toSorted((a, b) => a - b),
    extraLinks: [...extra.values()].toSorted((a, b) => compare(a.join('|'), b.join('|'))),
    bridged: unique(found.bridged),
    absent,
    ratings: Object.fromEntries(
      Object.entries(found.ratings)
        .filter(([id, rating]) => rating !== ratingDue(intended, id))
        .toSorted(([a], [b]) => compare(a, b)),
    ),
  };
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
const order = (cores: readonly ColourCode[]) => cores.toSorted(compare);
const unique = (values: readonly string[]) => [...new Set(values)].toSorted(compare);
const endKey = ({ cable, colour, end }: FoundEnd) => `${cable}.${colour}@${end + 1}`;

/** Whether nothing is marked. */
export const isAsEntry = (found: AsFound): boolean => countMarks(found) === 0;

/** How many things are marked. */
export const countMarks = (found: AsFound): number =>
  Object.keys(found.cables).length +
  found.ends.length +
  found.missingLinks.length +
  found.extraLinks.length +
  found.bridged.length +
  found.absent.length +
  Object.keys(found.ratings).length;

/**
 * What is named that this system does not have, in one line; null where the wiring as found
 * can be worked out.
 */
export function problemWithFound(network: Network, found: AsFound): string | null {
  const { system } = network;
  const noPoint = (point: string) =>
    network.nodes[network.nodeIndex.get(point) ?? -1]?.terminal === undefined;
  for (const cable of Object.keys(found.cables))
    if (!system.cables[cable]) return `there is no cable ${cable}`;
  for (const { cable, colour, point } of found.ends) {
    const due = system.cables[cable];
    if (!due) return `there is no cable ${cable}`;
    if (!(found.cables[cable] ?? coresOf(due)).includes(colour))
      return `${cable} has no core ${colour}`;
    if (isTerminal(point) && noPoint(point))
      return `there is no terminal ${point.replace('.', ' ')}`;
  }
  for (const i of found.missingLinks) if (!system.links[i]) return `there is no link ${i + 1}`;
  for (const pair of found.extraLinks) {
    const gone = pair.find(noPoint);
    if (gone !== undefined) return `there is no terminal ${gone.replace('.', ' ')}`;
    if (pair[0] === pair[1])
      return `a link joins two terminals, not ${pair[0].replace('.', ' ')} to itself`;
  }
  for (const id of found.bridged)
    if (!isBridgeable(network, id)) return `nothing to bridge at ${id}`;
  for (const item of found.absent) if (!network.items.has(item)) return `there is no item ${item}`;
  for (const id of Object.keys(found.ratings)) {
    if (ratingDue(network, id) === null) return `${id} is no fuse or breaker`;
    if (found.bridged.includes(id)) return `${id} is both bridged and of another rating`;
  }
  return null;
}

/** Whether a branch is a contact, a fuse or a breaker, which somebody could have bridged. */
export function isBridgeable(network: Network, id: string): boolean {
  const branch = network.branches[network.branchIndex.get(id) ?? -1];
  return branch?.kind === 'element' && ['contact', 'fuse', 'breaker'].includes(branch.element.kind);
}

/** Rating the entry gives a fuse or breaker, A; null for anything else. */
export function ratingDue(network: Network, id: string): number | null {
  const branch = network.branches[network.branchIndex.get(id) ?? -1];
  return branch?.kind === 'element' && 'rating' in branch.element ? branch.element.rating : null;
}
