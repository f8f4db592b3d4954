import type { Device } from '../../../schemas/index.ts';
import { isLooseEnd, type Simulation } from '../../circuit/index.ts';
import { itemOf, nameOf } from '../points.ts';
import { type CoreEnd, coreEnds } from '../rewire.ts';
import { type Added, addCores } from './add-cores.ts';
import { matchTerminals } from './match.ts';
import { EARTH, partsOf, terminalsFor } from './parts.ts';
import type { CoreStep, LinkStep, NewCable } from './steps.ts';

/** Old device to new device at one item, core by core. */
export interface Plan {
  readonly item: string;
  readonly oldId: string;
  readonly newId: string;
  readonly old: Device;
  readonly device: Device;
  readonly cores: readonly CoreStep[];
  readonly links: readonly LinkStep[];
  readonly newCable: NewCable | null;
  /** Parts of the new device that nothing at the item can serve. */
  readonly unserved: readonly string[];
  /** Terminals of the new device that stay empty. */
  readonly empty: readonly string[];
  /** Old terminals in use whose function the new device does not have. */
  readonly homeless: readonly string[];
}

/**
 * Works out which core goes where when a device takes an item's place.
 * @param before the system as it stands, at rest in its modes.
 * @throws RangeError for an item the system does not have.
 */
export function planReplacement(
  before: Simulation,
  item: string,
  newId: string,
  device: Device,
): Plan {
  const { network } = before;
  const found = network.items.get(item);
  if (!found) {
    const known = [...network.items.keys()].join(', ');
    throw new RangeError(`${network.id} has no item ${item}; it has ${known}`);
  }
  const match = matchTerminals(network, item, device);
  const at = (name: string) => `${item}.${name}`;
  const kept = coreEnds(network.system)
    .filter(({ point }) => itemOf(point) === item)
    .map((end): CoreStep => {
      const home = match.homes.get(nameOf(end.point)) ?? null;
      return {
        ...nameOfEnd(end),
        far: farEnd(before, end),
        was: end.point,
        now: home === null ? null : at(home),
        core: 'kept',
        sleeve: network.system.cables[end.cable]!.cores[end.colour]!.sleeve ?? null,
      };
    });
  const added = addCores(before, item, device, kept, match.missing);
  const links = linkSteps(found.device, device, match.links, before, item);
  return {
    item,
    oldId: found.deviceId,
    newId,
    old: found.device,
    device,
    cores: added.cores,
    links,
    newCable: added.newCable,
    unserved: added.unserved,
    empty: emptyTerminals(device, added, links),
    homeless: [...match.homes].flatMap(([name, home]) => (home === null ? [name] : [])),
  };
}

const nameOfEnd = ({ cable, colour, end }: CoreEnd) => ({ cable, colour, end });

function farEnd({ network }: Simulation, { cable, colour, end }: CoreEnd): string {
  return network.system.cables[cable]!.cores[colour]!.ends[end === 0 ? 1 : 0];
}

const isSame = (a: readonly [string, string], b: readonly [string, string]): boolean =>
  (a[0] === b[0] && a[1] === b[1]) || (a[0] === b[1] && a[1] === b[0]);

function linkSteps(
  old: Device,
  device: Device,
  wanted: readonly (readonly [string, string])[],
  { network }: Simulation,
  item: string,
): LinkStep[] {
  const delivered = device.links.map(({ between }) => between);
  const before = network.system.links
    .filter(({ between: [a] }) => itemOf(a) === item)
    .map(({ between: [a, b] }) => [nameOf(a), nameOf(b)] as const);
  const sameDevice = (pair: readonly [string, string]) =>
    pair.every((name) => partsOf(old, name).join() === partsOf(device, name).join());
  return [
    ...delivered.map((between): LinkStep => {
      const stays = wanted.some((pair) => isSame(pair, between));
      return { between, act: stays ? 'stays' : 'take out' };
    }),
    ...wanted
      .filter((pair) => !delivered.some((between) => isSame(between, pair)))
      .map((between): LinkStep => ({ between, act: 'add' })),
    ...before
      .filter((pair) => !(sameDevice(pair) && wanted.some((other) => isSame(other, pair))))
      .filter((pair) => !delivered.some((between) => isSame(between, pair)))
      .map((between): LinkStep => ({ between, act: 'not put back' })),
  ];
}

function emptyTerminals(device: Device, { cores }: Added, links: readonly LinkStep[]): string[] {
  const taken = new Set([
    ...cores.flatMap(({ now }) => (now === null || isLooseEnd(now) ? [] : [nameOf(now)])),
    ...links.flatMap(({ act, between }) => (act === 'add' || act === 'stays' ? between : [])),
  ]);
  const earthed = terminalsFor(device, EARTH).some((name) => taken.has(name));
  return Object.keys(device.terminals).filter(
    (name) => !taken.has(name) && !(earthed && partsOf(device, name).includes(EARTH)),
  );
}
