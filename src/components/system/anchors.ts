import type { Item } from '../../circuit/index.ts';
import { terminalAnchor } from '../../diagram/index.ts';
import type { TestPair } from '../../wiring/index.ts';

/**
 * Where each terminal's readings begin: the first pair that is read from it, else the first
 * that is read to it. Every terminal has one place, so that a tap on it leads somewhere.
 */
export function anchorsOf(pairs: readonly TestPair[]): ReadonlyMap<string, readonly string[]> {
  const home = new Map<string, string>();
  for (const { id, from } of pairs) if (!home.has(from)) home.set(from, id);
  for (const { id, to } of pairs) if (!home.has(to)) home.set(to, id);
  const anchors = new Map<string, string[]>();
  for (const [point, pair] of home) {
    anchors.set(pair, [...(anchors.get(pair) ?? []), terminalAnchor(point)]);
  }
  return anchors;
}

/** Terminals of an item at which no pair is read: nothing is joined there, or nothing beside it. */
export function unreadTerminals(item: Item, pairs: readonly TestPair[]): string[] {
  const read = new Set(pairs.flatMap(({ from, to }) => [from, to]));
  return Object.keys(item.device.terminals)
    .map((name) => `${item.reference}.${name}`)
    .filter((point) => !read.has(point));
}
