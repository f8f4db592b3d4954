import type { Network } from './network.ts';

/** What the world has set and what the devices keep: the memory a mode starts from. */
export interface Memory {
  /** Position of each item that has a mechanism. */
  readonly positions: ReadonlyMap<string, string>;
  /** Branch ids of fuses and breakers that have opened. */
  readonly blown: ReadonlySet<string>;
  /** Elements, by branch id, that have at least their operating voltage. */
  readonly energised: ReadonlySet<string>;
  /** Elements, by branch id, that have at least their holding voltage. */
  readonly held: ReadonlySet<string>;
}

/** Everything that decides what each branch is at one instant. */
export interface State extends Memory {
  /** Value of each condition, by ITEM.condition. */
  readonly conditions: ReadonlyMap<string, boolean>;
}

/** Memory of equipment as new: every mechanism at rest, nothing blown or energised. */
export function atRest(network: Network): Memory {
  const positions = new Map<string, string>();
  for (const [reference, { device }] of network.items) {
    if (device.mechanism) {
      positions.set(reference, network.stuck.get(reference) ?? device.mechanism.rest);
    }
  }
  return { positions, blown: new Set(), energised: new Set(), held: new Set() };
}

const usual = new WeakMap<Network['items'], ReadonlyMap<string, boolean>>();

/** Every condition as it usually is; the same for all circuits made of the same items. */
export function usualOf(items: Network['items']): ReadonlyMap<string, boolean> {
  const known = usual.get(items);
  if (known) return known;
  const values = new Map<string, boolean>();
  for (const [reference, { device }] of items)
    for (const [name, condition] of Object.entries(device.conditions))
      values.set(`${reference}.${name}`, condition.usual);
  usual.set(items, values);
  return values;
}

/**
 * Every condition's value: as usual, except those given; what a fault has set stands before both.
 * @throws RangeError for a condition that no item has.
 */
export function conditionsOf(
  network: Network,
  given: Readonly<Record<string, boolean>>,
): Map<string, boolean> {
  const values = new Map(usualOf(network.items));
  for (const [id, value] of Object.entries(given)) {
    if (!values.has(id)) {
      throw new RangeError(
        `${network.id} has no condition ${id}; it has ${[...values.keys()].join(', ')}`,
      );
    }
    values.set(id, value);
  }
  for (const [id, value] of network.set) values.set(id, value);
  return values;
}
