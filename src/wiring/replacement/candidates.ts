import type { Device } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { itemOf, nameOf } from '../points.ts';
import { coreEnds } from '../rewire.ts';
import { onExtraLow } from './match.ts';
import { allParts, isCall, isSecondary, partsOf } from './parts.ts';

/** Families whose devices take each other's place. */
const GROUPS: readonly (readonly Device['family'][])[] = [
  ['control', 'receiver', 'sensor'],
  ['valve'],
  ['pump'],
  ['isolation'],
  ['safety'],
  ['heater'],
  ['wiring centre'],
];

/**
 * Devices that can be offered for an item: of a family that does such work, with a terminal
 * for every function in use that the item cannot do without, and no call that the item has
 * not. What is lost or dangerous with
 * one of them is for the simulation to say. The item's own device comes first.
 */
export function candidatesFor(
  network: Network,
  item: string,
  devices: ReadonlyMap<string, Device>,
): string[] {
  const found = network.items.get(item);
  const group = GROUPS.find((families) => found && families.includes(found.device.family));
  if (!found || !group) return [];
  const used = new Set(
    [
      ...coreEnds(network.system).map(({ point }) => point),
      ...network.system.links.flatMap(({ between }) => between),
    ]
      .filter((point) => itemOf(point) === item)
      .flatMap((point) => partsOf(found.device, nameOf(point))),
  );
  const wanted = [...used].filter((part) => !isSecondary(part));
  const fits = [...devices].filter(([, device]) => {
    const parts = allParts(device);
    return (
      group.includes(device.family) &&
      wanted.every((part) => parts.includes(part)) &&
      parts.filter(isCall).every((part) => used.has(part))
    );
  });
  const points = Object.keys(found.device.terminals).map((name) => `${item}.${name}`);
  const extraLow = points.some((point) => onExtraLow(network, point));
  const alike = Map.groupBy(fits, ([, device]) => equipment(device));
  const own = equipment(found.device);
  const others = [...alike]
    .filter(([kind]) => kind !== own)
    .map(([, same]) => same.find(([, d]) => carriesCall(d) === extraLow) ?? same[0]!)
    .toSorted(([, a], [, b]) => allParts(a).length - allParts(b).length)
    .map(([id]) => id);
  return wanted.length === 0 ? [] : [found.deviceId, ...others];
}

/** What a device is, whatever it is used for: two entries of one make are told apart by use. */
const equipment = ({ terminals, elements, links, mechanism, conditions }: Device): string =>
  JSON.stringify([Object.keys(terminals), elements, links, mechanism, Object.keys(conditions)]);

/** Whether a device's entry is written for an extra-low-voltage call. */
const carriesCall = ({ terminals }: Device): boolean =>
  Object.values(terminals).some(({ carries }) => carries === 'call');
