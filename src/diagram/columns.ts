import type { Network } from '../circuit/index.ts';
import { cheapest, permutations } from './arrange.ts';
import { type Face, isBare } from './cells.ts';

/** Items from top to bottom in three columns; the last is empty where nothing needs it. */
export interface Columns {
  readonly left: readonly string[];
  readonly middle: readonly string[];
  readonly right: readonly string[];
  /** Which side each item's conductors leave from. */
  readonly faces: ReadonlyMap<string, Face>;
}

/** A conductor between two terminals as this room weighs it: an item and how far down its box. */
interface Tie {
  readonly items: readonly [string, string];
  readonly at: readonly [number, number];
}

/** What is worked: it stands right of the wiring centre, what feeds and commands it left. */
const WORKED = ['boiler', 'valve', 'pump'];
/** Items of a column up to which every order is weighed. */
const MOST_ORDERED = 6;
const CROSSING_COST = 40;
/** Moves to the middle column at most; each is tried on every item. */
const MOST_MOVES = 4;
const ROUNDS = 2;

/**
 * Groups a system's items round the middle of its wiring: the wiring centre, or the item in
 * which most conductors end. Left of it stands what feeds and commands, right of it what is
 * worked. Items of the taller side move above or below the centre until the three are about
 * equally tall; each column is then ordered so that few conductors cross and all are short.
 * @param heightOf height of an item's box with its gap, px.
 */
export function columnsOf(network: Network, heightOf: (item: string) => number): Columns {
  const ties = tiesOf(network);
  const groups = groupsOf(network, ties);
  const faces = new Map<string, Face>();
  const oneSided = groups.right.length === 0;
  for (const id of groups.left) faces.set(id, 'right');
  for (const id of groups.right) faces.set(id, 'left');
  for (const id of groups.middle) {
    const bare = isBare(network.items.get(id)!);
    faces.set(id, bare && !oneSided ? 'both' : 'left');
  }
  balance(groups, faces, network, heightOf);
  order(groups, network, ties, heightOf);
  return { ...groups, faces };
}

interface Groups {
  left: string[];
  middle: string[];
  right: string[];
}

function tiesOf(network: Network): Tie[] {
  return network.branches.flatMap((branch): Tie[] => {
    if (branch.kind !== 'conductor' && branch.kind !== 'wire link') return [];
    const nodes = [network.nodes[branch.from]!, network.nodes[branch.to]!] as const;
    if (nodes[0].item === undefined || nodes[1].item === undefined) return [];
    const place = ({ item, name }: (typeof nodes)[0]) => {
      const names = Object.keys(network.items.get(item!)!.device.terminals);
      return (names.indexOf(name) + 1) / (names.length + 1);
    };
    return [{ items: [nodes[0].item, nodes[1].item], at: [place(nodes[0]), place(nodes[1])] }];
  });
}

function groupsOf(network: Network, ties: readonly Tie[]): Groups {
  const items = [...network.items.keys()];
  const family = (id: string) => network.items.get(id)!.device.family;
  const centres = items.filter((id) => family(id) === 'wiring centre');
  const worked = items.filter((id) => WORKED.includes(family(id)));
  const joined = (id: string) => ties.filter((tie) => tie.items.includes(id)).length;
  const most = cheapest(items, (id) => -joined(id))!;
  const middle = centres.length > 0 ? centres : [most];
  const others = worked.filter((id) => !middle.includes(id));
  // Without a centre that is entered from both sides there is one channel only.
  const isOpen = middle.every((id) => isBare(network.items.get(id)!));
  const right = isOpen ? others : [];
  if (!isOpen) middle.push(...others);
  const left = items.filter((id) => !middle.includes(id) && !right.includes(id));
  return { left, middle, right };
}

/** Moves items from the tallest side to the middle while that makes the tallest column less tall. */
function balance(
  groups: Groups,
  faces: Map<string, Face>,
  network: Network,
  heightOf: (item: string) => number,
): void {
  if (groups.right.length === 0) return;
  const tall = (items: readonly string[]) => items.reduce((sum, id) => sum + heightOf(id), 0);
  const tallest = (of: Groups) => Math.max(tall(of.left), tall(of.middle), tall(of.right));
  for (let move = 0; move < MOST_MOVES; move++) {
    const moves = (['left', 'right'] as const).flatMap((side) =>
      groups[side]
        .filter((id) => network.items.get(id)!.device.family !== 'supply')
        .map((id) => ({
          id,
          side,
          groups: {
            ...groups,
            [side]: groups[side].filter((other) => other !== id),
            middle: [...groups.middle, id],
          },
        })),
    );
    const best = cheapest(moves, (one) => tallest(one.groups));
    if (!best || tallest(best.groups) >= tallest(groups)) return;
    Object.assign(groups, best.groups);
    faces.set(best.id, best.side === 'left' ? 'left' : 'right');
  }
}

/** Orders the columns in their turn, the supply on top of its own. */
function order(
  groups: Groups,
  network: Network,
  ties: readonly Tie[],
  heightOf: (item: string) => number,
): void {
  const isSupply = (id: string) => network.items.get(id)!.device.family === 'supply';
  for (let round = 0; round < ROUNDS; round++) {
    for (const column of ['left', 'right', 'middle'] as const) {
      const first = groups[column].filter(isSupply);
      const rest = groups[column].filter((id) => !isSupply(id));
      const cost = (tail: readonly string[]) =>
        costOf({ ...groups, [column]: [...first, ...tail] }, ties, heightOf);
      const orders = rest.length <= MOST_ORDERED ? permutations(rest) : exchanges(rest, cost);
      groups[column] = [...first, ...(cheapest(orders, cost) ?? [])];
    }
  }
}

/** Orders got by moving one item at a time to its best place. */
function* exchanges(
  items: readonly string[],
  cost: (order: readonly string[]) => number,
): Generator<string[]> {
  let order = [...items];
  yield order;
  for (const id of items) {
    const rest = order.filter((other) => other !== id);
    const tries = items.map((_, i) => rest.toSpliced(i, 0, id));
    order = cheapest(tries, cost)!;
    yield order;
  }
}

/** Crossings between columns and lengths of conductors, by the boxes' heights. */
function costOf(groups: Groups, ties: readonly Tie[], heightOf: (item: string) => number): number {
  const place = new Map<string, { column: number; y: number; height: number }>();
  for (const [column, items] of [groups.left, groups.middle, groups.right].entries()) {
    let y = -items.reduce((sum, id) => sum + heightOf(id), 0) / 2;
    for (const id of items) {
      place.set(id, { column, y, height: heightOf(id) });
      y += heightOf(id);
    }
  }
  const runs = ties.map(({ items, at }) => {
    const ends = items.map((id, i) => {
      const { column, y, height } = place.get(id)!;
      return { column, y: y + at[i as 0 | 1] * height };
    });
    return ends.sort((a, b) => a.column - b.column);
  });
  let cost = 0;
  for (const [i, [a, b]] of runs.entries()) {
    cost += Math.abs(a!.y - b!.y);
    for (const [c, d] of runs.slice(i + 1)) {
      const alike = a!.column === c!.column && b!.column === d!.column;
      if (alike && (a!.y - c!.y) * (b!.y - d!.y) < 0) cost += CROSSING_COST;
    }
  }
  return cost;
}
