import type { Device } from '../../../schemas/index.ts';
import type { Entry } from '../../entries/index.ts';

const ORDER: readonly Device['family'][] = [
  'boiler',
  'control',
  'receiver',
  'sensor',
  'valve',
  'pump',
  'safety',
  'heater',
  'wiring centre',
  'isolation',
  'supply',
];

/** Devices by family, in the order an engineer asks for them; within a family by title. */
export function byFamily(
  devices: Iterable<Entry<Device>>,
): [family: Device['family'], entries: Entry<Device>[]][] {
  const sorted = [...devices].sort((a, b) => a.data.title.localeCompare(b.data.title, 'en-GB'));
  const groups = Map.groupBy(sorted, (entry) => entry.data.family);
  return ORDER.flatMap((family) => {
    const entries = groups.get(family);
    return entries ? [[family, entries] as [Device['family'], Entry<Device>[]]] : [];
  });
}

/** A family as a heading says it. */
export const FAMILY_TITLES: Readonly<Record<Device['family'], string>> = {
  supply: 'Supply',
  isolation: 'Isolation',
  boiler: 'Boilers',
  control: 'Controls',
  receiver: 'Receivers',
  sensor: 'Sensors',
  safety: 'Safety devices',
  valve: 'Valves',
  pump: 'Pumps',
  heater: 'Heaters',
  'wiring centre': 'Wiring centres',
};
