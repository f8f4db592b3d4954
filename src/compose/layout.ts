import type { Module } from '../../schemas/index.ts';
import type { Arrangement, Placed } from './placed.ts';
import { wiredOf } from './placed.ts';
import { type Catalogue, Refusal } from './types.ts';

/** A terminal and the net it lies on. */
export interface Member {
  readonly net: string;
  readonly terminal: string;
}

/** An item with its wiring before any core is chosen. */
export interface Wiring {
  readonly reference: string;
  readonly placed: Placed;
  /** Item of its module. */
  readonly item: string;
  readonly members: readonly Member[];
}

/** A box with the way that each of its nets has. */
export interface Box {
  readonly reference: string;
  readonly device: string;
  readonly place: string;
  readonly title?: string;
  /** Its own entry, for what is said of it. */
  readonly entry: { readonly id: string; readonly module: Module };
  /** Net → terminal of the box, without the item. */
  readonly ways: ReadonlyMap<string, string>;
}

/** Which item is wired where. */
export interface Layout {
  readonly box?: Box;
  readonly heat: Wiring;
  readonly isolator: Wiring;
  readonly atBox: readonly Wiring[];
  readonly atBoiler: readonly Wiring[];
  /** Items with a box of their own beside them. */
  readonly byOwnBox: readonly { readonly wiring: Wiring; readonly box: Box }[];
}

/** Every box, the common one first. */
export const boxesOf = ({ box, byOwnBox }: Layout): Box[] => [
  ...(box ? [box] : []),
  ...byOwnBox.map((own) => own.box),
];

const BARS: Readonly<Record<string, string>> = { neutral: 'N', earth: 'E' };

/**
 * Decides what is wired at the boiler and what at a box. An item is wired at the boiler where
 * every net it needs is there; else at a box, on which each net of two members has a way.
 */
export function layOut(
  arrangement: Arrangement,
  nets: ReadonlyMap<string, readonly string[]>,
  ties: ReadonlyMap<string, string>,
  catalogue: Catalogue,
): Layout {
  const netOf = new Map(
    [...nets].flatMap(([net, members]) => members.map((terminal) => [terminal, net] as const)),
  );
  const wiringOf = (placed: Placed, item: string): Wiring => {
    const reference = placed.references.get(item)!;
    const device = catalogue.devices.get(placed.module.items[item]!.device)!;
    const members = Object.keys(device.terminals).flatMap((name): Member[] => {
      const terminal = `${reference}.${name}`;
      const net = netOf.get(terminal);
      return net === undefined ? [] : [{ net, terminal }];
    });
    return { reference, placed, item, members: withoutIdleEarth(members, device) };
  };
  const { heat, isolator, supply } = arrangement;
  const one = (placed: Placed) => wiringOf(placed, [...placed.references.keys()][0]!);
  const boiler = one(heat);
  const there = new Set(boiler.members.map(({ net }) => net));
  const others = arrangement.all
    .filter((placed) => placed !== heat && placed !== isolator && placed !== supply)
    .flatMap((placed) => [...placed.references.keys()].map((item) => wiringOf(placed, item)));
  const fits = ({ members }: Wiring) =>
    members.every(({ net }) => there.has(net) && !ties.has(net));
  const atBoiler = others.filter((wiring) => {
    const wanted = wiredOf(wiring.placed, wiring.item);
    return fits(wiring) && (wanted === undefined || wanted === 'at the boiler');
  });
  const atBoxes = others.filter((wiring) => !atBoiler.includes(wiring));
  const layout = { heat: boiler, isolator: one(isolator), atBoiler };
  if (atBoxes.length === 0) return { ...layout, atBox: [], byOwnBox: [] };

  const boxed = [layout.isolator, ...atBoxes].flatMap(({ members }) => members);
  const box = boxWith(
    catalogue,
    'X1',
    // Every net that somebody at the box shares with another item, in the order of the nets.
    [...nets.keys()].filter((net) => boxed.some((member) => member.net === net)),
  );
  const own = atBoxes.filter(({ placed, item }) => wiredOf(placed, item) === 'by a box of its own');
  const byOwnBox = own.map((wiring, i) => {
    const wanted = [...nets.keys()].filter((net) => wiring.members.some((m) => m.net === net));
    const place = `Beside: ${wiring.placed.module.items[wiring.item]!.place}`;
    return { wiring, box: { ...boxWith(catalogue, `X${i + 2}`, wanted), place } };
  });
  return { ...layout, box, atBox: atBoxes.filter((wiring) => !own.includes(wiring)), byOwnBox };
}

/** Equipment whose every other terminal is extra-low voltage has no earth brought to it. */
function withoutIdleEarth(
  members: readonly Member[],
  { terminals, protection }: NonNullable<ReturnType<Catalogue['devices']['get']>>,
): readonly Member[] {
  const carries = ({ terminal }: Member) =>
    terminals[terminal.slice(terminal.indexOf('.') + 1)]?.carries;
  const others = members.filter((member) => carries(member) !== 'earth');
  const low = others.length > 0 && others.every((member) => carries(member) === 'call');
  return low && protection !== 'class I' ? others : members;
}

/** The smallest box with a way for each net. */
function boxWith(catalogue: Catalogue, reference: string, nets: readonly string[]): Box {
  const numbered = nets.filter((net) => !BARS[net]);
  const [found] = [...catalogue.modules]
    .filter(([, { slot, ways }]) => slot === 'box' && (ways ?? 0) >= numbered.length)
    .toSorted(([, a], [, b]) => a.ways! - b.ways!);
  if (!found) throw new Refusal('box too small', `${numbered.length} ways`);
  const [id, module] = found;
  const { device, place, title } = Object.values(module.items)[0]!;
  const ways = nets.map((net) => [net, BARS[net] ?? String(numbered.indexOf(net) + 1)] as const);
  const entry = { id, module };
  return { reference, device, place, ...(title ? { title } : {}), entry, ways: new Map(ways) };
}
