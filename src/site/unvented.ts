import type { Network } from '../circuit/index.ts';
import { conductorOf } from './places.ts';

/**
 * Whether a stat or valve belongs to an unvented cylinder, and so is a safety device itself
 * (Approved Document G3): one conductor joins it to a safety device, over cores and links alone.
 */
export function isUnvented(network: Network, item: string): boolean {
  const { nodes, items } = network;
  const familyOf = (of: string | null | undefined) => items.get(of ?? '')?.device.family ?? '';
  if (!['valve', 'control', 'sensor'].includes(familyOf(item))) return false;
  return nodes.some(
    ({ item: own, index, terminal }) =>
      own === item &&
      (terminal?.carries === 'line' || terminal?.carries === 'switched') &&
      [...conductorOf(network, index)].some((node) => familyOf(nodes[node]!.item) === 'safety'),
  );
}

/** The same, and the cut-out itself, which only such a cylinder has. */
export const isAtUnvented = (network: Network, item: string): boolean =>
  isUnvented(network, item) ||
  (network.items.get(item)?.device.family === 'safety' &&
    [...network.items.keys()].some((other) => isUnvented(network, other)));
