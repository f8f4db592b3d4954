import { type Demand, splitReference } from '../../schemas/index.ts';
import {
  changeNetwork,
  type Memory,
  type Network,
  type Seen,
  type Settled,
  settleMode,
} from '../circuit/index.ts';
import { isBeyondControls } from '../wiring/index.ts';
import { coveringRows, everyRow } from './cover.ts';

/** The same network with some branches come apart. */
export const withOpen = (network: Network, branches: readonly { readonly id: string }[]): Network =>
  changeNetwork(
    network,
    branches.map(({ id }) => ({ kind: 'open', branch: id })),
  );

/** Brings a changed network to rest in a mode, from where the sound one rests. */
export function again(
  network: Network,
  { mode, state }: Settled,
  conditions: Readonly<Record<string, boolean>> = {},
): Settled {
  const own = network.system.modes[mode]?.conditions ?? {};
  return settleMode(network, mode, { ...own, ...conditions }, state);
}

/** Families whose conditions may light a heat source or send a live somewhere. */
export const ACTING: readonly string[] = ['boiler', 'heater', 'control', 'receiver', 'sensor'];

/** Most conditions of which every way of setting them is tried. */
const ALL_WAYS_OF = 8;
/** The same where a hazard hangs on several at once. */
const ALL_WAYS_OF_A_HAZARD = 12;

/**
 * Every way of setting some conditions; of more than {@link ALL_WAYS_OF} ways in which any three
 * of them are set together in all eight ways, from none set to all.
 */
export function settings(names: readonly string[]): Record<string, boolean>[] {
  return waysOf(names, ALL_WAYS_OF);
}

function waysOf(names: readonly string[], most: number): Record<string, boolean>[] {
  const rows = names.length <= most ? everyRow(names.length) : coveringRows(names.length);
  return rows.map((row) => Object.fromEntries(names.map((name, i) => [name, row[i]!])));
}

/**
 * Ways of setting everything that may act at once on what a safety device must stop: all ways of
 * what asks, times and reports, with every control sound, and of all conditions, those of a
 * control at fault too, ways in which any three are set together in all eight.
 */
export function hazardWays(
  network: Network,
  families: readonly string[],
): Record<string, boolean>[] {
  const all = conditionsOfFamilies(network, families);
  const sound = all.filter((id) => {
    const [item, name] = splitReference(id);
    return network.items.get(item)!.device.conditions[name]!.cause === undefined;
  });
  const atFault = Object.fromEntries(all.map((id) => [id, false]));
  const ways = waysOf(sound, ALL_WAYS_OF_A_HAZARD).map((way) => ({ ...atFault, ...way }));
  return sound.length === all.length ? ways : [...ways, ...waysOf(all, 0)];
}

/** A condition, `ITEM.condition`, by which something asks for heat. */
interface Asking {
  readonly id: string;
  readonly wants: Demand;
}

/**
 * Demands of the items of some families, by what their devices say they want. A clock's are
 * left out: it lets a thermostat ask, and with that satisfied nothing is demanded.
 */
export function demandsOf(network: Network, families: readonly string[]): Asking[] {
  return conditionsOfFamilies(network, families).flatMap((id) => {
    const [item, name] = splitReference(id);
    const { wants, timed } = network.items.get(item)!.device.conditions[name]!;
    return wants === undefined || timed ? [] : [{ id, wants }];
  });
}

/**
 * Conditions of the items of some families, as ITEM.condition; not that a device is on its base,
 * off which it does nothing at all, nor what is beyond the controls.
 */
export function conditionsOfFamilies(network: Network, families: readonly string[]): string[] {
  return [...network.items.values()]
    .filter(({ device }) => families.includes(device.family))
    .flatMap(({ reference, device }) =>
      Object.entries(device.conditions).flatMap(([name, { presence }]) =>
        presence || isBeyondControls(device, name) ? [] : `${reference}.${name}`,
      ),
    );
}

/** Outcomes of the items of some families that are so, as ITEM.outcome. */
export function outcomesThatAre(
  { outcomes }: Settled,
  network: Network,
  families: readonly string[],
  names: readonly string[],
): string[] {
  return [...network.items.values()]
    .filter(({ device }) => families.includes(device.family))
    .flatMap(({ reference }) => names.map((name) => `${reference}.${name}`))
    .filter((id) => isSo(outcomes.get(id)));
}

/** What comes and goes is there. */
const isSo = (seen: Seen | undefined) => seen === true || seen === 'hunting';

/** A network at rest under conditions of no named mode. */
export const under = (
  network: Network,
  conditions: Readonly<Record<string, boolean>>,
  memory?: Memory,
): Settled => settleMode(network, 'trial', conditions, memory);
