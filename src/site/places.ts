import type { Opening } from '../../schemas/index.ts';
import type { Network } from '../circuit/index.ts';

/** One opening of one item: where a hand and a probe get at it. */
export interface Place {
  /** `B1/backplate`. */
  readonly id: string;
  readonly item: string;
  readonly opening: Opening;
  /** Terminals one gets at, as in `B1.COM`. */
  readonly terminals: readonly string[];
  /** Fuse links one gets at, by branch id, as in `Q1/fuse`. */
  readonly fuses: readonly string[];
  /** Conditions that opening it brings about, as in `B1.fitted` false; none where it has no effect. */
  readonly brings: Readonly<Record<string, boolean>>;
}

const known = new WeakMap<Network['items'], readonly Place[]>();

/** Every place of a network, item by item. */
export function placesOf({ items }: Network): readonly Place[] {
  const before = known.get(items);
  if (before) return before;
  const made = [...items].flatMap(([item, { device }]) => {
    const named = new Set(Object.values(device.openings).flatMap(({ shows }) => shows ?? []));
    const others = Object.keys(device.terminals).filter((terminal) => !named.has(terminal));
    return Object.entries(device.openings).map(
      ([name, opening]): Place => ({
        id: `${item}/${name}`,
        item,
        opening,
        terminals: (opening.shows ?? others).map((terminal) => `${item}.${terminal}`),
        fuses: opening.holds.map((fuse) => `${item}/${fuse}`),
        brings: Object.fromEntries(
          Object.entries(opening.moves).map(([condition, value]) => [
            `${item}.${condition}`,
            value,
          ]),
        ),
      }),
    );
  });
  known.set(items, made);
  return made;
}

/**
 * A place by its id.
 * @throws RangeError when the network has none of this id.
 */
export function placeNamed(network: Network, id: string): Place {
  const place = placesOf(network).find((one) => one.id === id);
  if (place) return place;
  const ids = placesOf(network).map((one) => one.id);
  throw new RangeError(`${network.id} has no place ${id}; it has ${ids.join(', ')}`);
}

/** The place at which a terminal is got at; undefined for one that no opening shows. */
export function placeOfTerminal(network: Network, point: string): Place | undefined {
  return placesOf(network).find(({ terminals }) => terminals.includes(point));
}

/** What a controls engineer reads at a place. */
export const readsAt = ({ opening }: Place): Opening['readings'] =>
  opening.by === 'controls engineer' ? opening.readings : 'none';

/** Whether opening a place changes the circuit. */
export const changesCircuit = ({ brings }: Place): boolean => Object.keys(brings).length > 0;

/**
 * Where the conductor that ends at a terminal is read instead, with everything connected and
 * working: the nearest terminal that the same conductor reaches, over cores and wire links
 * alone. The terminal itself where it is such a one; null where there is none.
 */
export function readInstead(network: Network, point: string): string | null {
  const start = network.nodeIndex.get(point);
  if (start === undefined) throw new RangeError(`${network.id} has no terminal ${point}`);
  for (const node of conductorOf(network, start)) {
    const { id, terminal } = network.nodes[node]!;
    if (terminal && isReadAsItIs(network, id)) return id;
  }
  return null;
}

/** The nodes of one conductor, over cores and wire links alone, the nearest first. */
export function* conductorOf({ branches }: Network, start: number): Generator<number> {
  const neighbours = joinedByWire(branches);
  const seen = new Set([start]);
  for (const node of seen) {
    yield node;
    for (const next of neighbours.get(node) ?? []) seen.add(next);
  }
}

const wired = new WeakMap<Network['branches'], ReadonlyMap<number, readonly number[]>>();

/** The nodes at the other ends of each node's cores and wire links. */
function joinedByWire(branches: Network['branches']): ReadonlyMap<number, readonly number[]> {
  const before = wired.get(branches);
  if (before) return before;
  const made = new Map<number, number[]>();
  const add = (node: number, next: number) => {
    const own = made.get(node);
    if (own) own.push(next);
    else made.set(node, [next]);
  };
  for (const { kind, from, to } of branches) {
    if (kind !== 'conductor' && kind !== 'wire link') continue;
    add(from, to);
    add(to, from);
  }
  wired.set(branches, made);
  return made;
}

function isReadAsItIs(network: Network, point: string): boolean {
  const place = placeOfTerminal(network, point);
  return place !== undefined && readsAt(place) === 'live and dead' && !changesCircuit(place);
}
