import { type Demand, splitReference } from '../../schemas/index.ts';
import {
  changeNetwork,
  type Memory,
  type Network,
  type Seen,
  type Settled,
  settleMode,
} from '../circuit/index.ts';

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

/**
 * Most trials of one sweep. No power of two, so that of a larger sweep the last of the
 * conditions changes from trial to trial like the first.
 */
const MOST_TRIALS = 127;

/**
 * Every way of setting some conditions; of seven or more conditions {@link MOST_TRIALS} ways
 * evenly spread, from none set to all.
 */
export function settings(names: readonly string[]): Record<string, boolean>[] {
  const all = 2 ** names.length;
  const trials = Math.min(all, MOST_TRIALS);
  return Array.from({ length: trials }, (_, trial) => {
    const bits = trials === 1 ? 0 : Math.round((trial * (all - 1)) / (trials - 1));
    return Object.fromEntries(names.map((name, i) => [name, Math.floor(bits / 2 ** i) % 2 === 1]));
  });
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
 * off which it does nothing at all.
 */
export function conditionsOfFamilies(network: Network, families: readonly string[]): string[] {
  return [...network.items.values()]
    .filter(({ device }) => families.includes(device.family))
    .flatMap(({ reference, device }) =>
      Object.entries(device.conditions).flatMap(([name, { presence }]) =>
        presence ? [] : `${reference}.${name}`,
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
