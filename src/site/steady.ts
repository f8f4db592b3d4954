import { type LogicNames, namesIn, splitReference } from '../../schemas/index.ts';
import type { Network } from '../circuit/index.ts';

/**
 * Whether an outcome, `ITEM.outcome`, is the same in every mode of a system, as what a pressure
 * gauge shows: only causes decide it, and no mode is about one. It is looked at once, in whatever
 * mode one stands.
 */
export const isSteady = (network: Network, outcome: string): boolean =>
  namedIn(network, outcome).elements.length === 0 && onlyCauses(network, outcome);

/** The same of a sound system: an MCB may be down with one call and not with another, and then something is wrong. */
export function isSteadyWhileSound(network: Network, outcome: string): boolean {
  const { elements } = network.items.get(splitReference(outcome)[0])!.device;
  const protects = (name: string) => ['fuse', 'breaker'].includes(elements[name]!.kind);
  return namedIn(network, outcome).elements.every(protects) && onlyCauses(network, outcome);
}

function onlyCauses(network: Network, outcome: string): boolean {
  const { items, system } = network;
  const [item] = splitReference(outcome);
  const named = namedIn(network, outcome);
  return (
    named.positions.length === 0 &&
    named.conditions.every(
      (condition) =>
        items.get(item)!.device.conditions[condition]!.cause !== undefined &&
        Object.values(system.modes).every((mode) => !(`${item}.${condition}` in mode.conditions)),
    )
  );
}

function namedIn({ items }: Network, outcome: string): LogicNames {
  const [item, name] = splitReference(outcome);
  return namesIn(items.get(item)!.device.outcomes[name]!.when);
}
