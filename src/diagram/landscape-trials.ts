import type { Network } from '../circuit/index.ts';
import { cheapest } from './arrange.ts';
import { bandsOf, type Entry } from './bands.ts';
import { type Box, makeBox } from './box.ts';
import { type Channel, fillChannel } from './channel.ts';
import type { Columns } from './columns.ts';
import type { Side } from './geometry.ts';
import { type Conductor, type Sheet, SPARE_CLEAR } from './layout.ts';
import type { Lead } from './leads.ts';
import type { Plan } from './plan.ts';
import { COLUMN_NAMES, type ColumnName, opposite, type PortOf } from './ports.ts';
import { type End, Slots, tracksOf } from './slots.ts';
import { type Spacing, TICK } from './spacing.ts';
import { EDGE } from './trials.ts';

/** What stays the same from trial to trial. */
export interface Parts {
  readonly network: Network;
  readonly spacing: Spacing;
  readonly plans: ReadonlyMap<string, Plan>;
  readonly columns: Columns;
  readonly leads: readonly Lead[];
  readonly portOf: PortOf;
  /** Least width of each column, px. */
  readonly needs: Widths;
  /** Width of the labels at conductors' ends in each channel, px. */
  readonly codes: Readonly<Record<Side, number>>;
}

type Widths = Readonly<Record<ColumnName, number>>;

/** A drawing before its conductors are traced. */
export interface Across {
  /** Top of each item's box. */
  readonly tops: ReadonlyMap<string, number>;
  readonly slots: Slots;
  /** Place of each end in its terminal, as it was in this trial. */
  readonly entries: (lead: Lead, end: 0 | 1) => Entry;
  readonly channels: Readonly<Record<Side, Channel>>;
  /** Heights at which conductors pass over the middle column from one channel into the other. */
  readonly lanes: ReadonlyMap<Lead, number>;
  readonly widths: Widths;
  readonly width: number;
  readonly height: number;
  readonly boxesAt: (xs: Widths) => readonly Box[];
}

/** Slots, heights and widths depend on one another; they settle in a few rounds or go no further. */
const ROUNDS = 5;
/** Boxes of a drawing with one channel may be so much wider. */
const WIDER = 1.4;
/**
 * Where boxes stand before their columns have a place. Lines inside are set to whole px, by which
 * a box may be a line taller or less: every column begins whole px from here.
 */
const ANYWHERE: Widths = { left: EDGE, middle: EDGE, right: EDGE };
/** First line of the grid, px from the top. */
const EDGE_LINE = 2;
/** Cost of a px of height beside one of the sheet's width not used and a crossing. */
const HEIGHT_COST = 0.05;

/** The best drawing found. */
export function bestAcross(parts: Parts): Across {
  const { spacing, columns, leads, portOf, needs, codes } = parts;
  const grid = spacing.grid!;
  const isOver = (lead: Lead) => portOf(lead, 0).channel !== portOf(lead, 1).channel;
  const slots = new Slots(endsOf(parts));
  const trials: Across[] = [];
  let widths: Widths = needs;
  for (let round = 0; round < ROUNDS; round++) {
    const over = leads.filter(isOver);
    const lanes = new Map(over.map((lead, i) => [lead, EDGE_LINE + grid * (i + 0.5)] as const));
    const { tops, height, boxesAt } = stack(parts, slots, widths, lanes.size);
    const entries = entriesIn(boxesAt(ANYWHERE), slots, parts);
    const fill = (channel: Side): Channel => {
      const own = leads.filter((lead) =>
        [portOf(lead, 0), portOf(lead, 1)].some((port) => port.channel === channel),
      );
      const entryOf = (lead: Lead, end: 0 | 1): Entry =>
        portOf(lead, end).channel === channel
          ? entries(lead, end)
          : { y: lanes.get(lead)!, side: opposite(channel) };
      return fillChannel(
        bandsOf(own, entryOf, () => [], spacing),
        spacing,
      );
    };
    const channels = { left: fill('left'), right: fill('right') };
    const taken =
      2 * EDGE + roomOf(channels.left, codes.left) + roomOf(channels.right, codes.right);
    const width = taken + widths.left + widths.middle + widths.right;
    trials.push({ tops, slots, entries, channels, lanes, widths, width, height, boxesAt });
    learn(slots, parts, channels, entries, lanes);
    widths = spread(
      needs,
      spacing.sheet - taken,
      spacing.box.most * (columns.right.length > 0 ? 1 : WIDER),
    );
  }
  return cheapest(trials, ({ width, height, channels }) => {
    const beyond = width - spacing.sheet;
    const misfit = beyond > 0 ? 10 * beyond : -beyond / 10;
    return misfit + HEIGHT_COST * height + channels.left.crossings + channels.right.crossings;
  })!;
}

/** Width of a channel with the labels at its edges, px; none where nothing runs in it. */
const roomOf = ({ placed, width }: Channel, codes: number): number =>
  placed.length === 0 ? 0 : 2 * codes + TICK.reach + Math.ceil(width);

/** Every end in a terminal, before anything has been placed. */
function endsOf({ leads, columns, portOf }: Parts): End[] {
  const rank = (id: string) =>
    COLUMN_NAMES.map((name) => columns[name])
      .find((ids) => ids.includes(id))!
      .indexOf(id);
  return leads.flatMap((lead): End[] => {
    if (lead.spare) return [];
    return ([0, 1] as const).map((end) => {
      const down = rank(lead.items[1 - end]!) - rank(lead.items[end]);
      const way = down < 0 || (down === 0 && end === 1) ? -1 : 1;
      return { lead, end, side: opposite(portOf(lead, end).edge), way, reach: Math.abs(down) };
    });
  });
}

/** Tells the slots which way each conductor leaves and how far out it turns. */
function learn(
  slots: Slots,
  { portOf, spacing }: Parts,
  channels: Across['channels'],
  entries: Across['entries'],
  lanes: Across['lanes'],
): void {
  const tracks = {
    left: tracksOf(channels.left.placed, spacing),
    right: tracksOf(channels.right.placed, spacing),
  };
  slots.settle((one) => {
    const { lead, end } = one;
    const { channel, edge } = portOf(lead, end);
    const x = tracks[channel].get(lead)!;
    one.reach = edge === 'left' ? x : channels[channel].width - x;
    const other = lanes.get(lead) ?? entries(lead, end === 0 ? 1 : 0).y;
    one.way = other < entries(lead, end).y ? -1 : 1;
  });
}

/** Shares what is over among the columns, the narrowest first, none wider than is wanted. */
function spread(needs: Widths, room: number, most: number): Widths {
  const names = COLUMN_NAMES.filter((name) => needs[name] > 0);
  const widths = { ...needs };
  let over = Math.floor(room - names.reduce((sum, name) => sum + needs[name], 0));
  for (; over > 0; over--) {
    const grown = names.filter((name) => widths[name] < most);
    const least = cheapest(grown, (name) => widths[name]);
    if (!least) break;
    widths[least]++;
  }
  return widths;
}

/**
 * Stands the boxes in their columns, whose middles are level. Conductors leave boxes of the
 * middle column half a line of the grid lower than those of the others, so that two that come
 * towards one another never share a line.
 */
function stack(
  { network, spacing, plans, columns, leads }: Parts,
  slots: Slots,
  widths: Widths,
  lanes: number,
) {
  const grid = spacing.grid!;
  const ends = slots.counts;
  const make = (id: string, name: ColumnName, x: number, y: number): Box => {
    const spares = leads.flatMap(({ spare, items, ends: nodes }) =>
      spare ? nodes.filter((_, i) => items[i] === id) : [],
    );
    const stand = { corner: { x, y }, width: widths[name], face: columns.faces.get(id)! };
    return makeBox(network.items.get(id)!, plans.get(id)!, { ends, spares }, stand, spacing);
  };
  const onGrid = (n: number) => grid * Math.ceil(n / grid);
  const heights = new Map(
    COLUMN_NAMES.flatMap((name) =>
      columns[name].map((id) => [id, onGrid(make(id, name, ANYWHERE[name], EDGE_LINE).rect.height)] as const),
    ),
  );
  const tall = (name: ColumnName) =>
    columns[name].reduce((sum, id) => sum + heights.get(id)! + spacing.gap, -spacing.gap);
  const tallest = Math.max(...COLUMN_NAMES.map(tall));
  const tops = new Map<string, number>();
  for (const name of COLUMN_NAMES) {
    let y = grid * (lanes + Math.floor((tallest - tall(name)) / 2 / grid));
    if (name === 'middle') y += grid / 2;
    for (const id of columns[name]) {
      tops.set(id, EDGE_LINE + y);
      y += heights.get(id)! + spacing.gap;
    }
  }
  const boxesAt = (xs: Widths) =>
    COLUMN_NAMES.flatMap((name) =>
      columns[name].map((id) => make(id, name, xs[name], tops.get(id)!)),
    );
  return { tops, height: EDGE_LINE + grid * (lanes + 0.5) + tallest + EDGE, boxesAt };
}

/** Where each lead's end comes into its channel. */
function entriesIn(
  boxes: readonly Box[],
  slots: Slots,
  { leads, portOf }: Parts,
): Across['entries'] {
  const cells = new Map(boxes.flatMap((box) => box.cells.map((cell) => [cell.id, cell.slots])));
  const spares = new Map(boxes.flatMap((box) => [...box.spares]));
  const known = new Map(
    leads.map((lead) => {
      const entryAt = (end: 0 | 1): Entry => {
        const node = lead.ends[end];
        const { edge } = portOf(lead, end);
        const place = cells.get(node)?.[opposite(edge)];
        return { y: spares.get(node) ?? place![slots.indexOf(lead, end)]!, side: edge };
      };
      return [lead, [entryAt(0), entryAt(1)] as const] as const;
    }),
  );
  return (lead, end) => known.get(lead)![end];
}

/** Gives everything its place across, and each conductor its corners. */
export function traceAcross(trial: Across, { spacing, leads, portOf, codes }: Parts): Sheet {
  const { channels, widths, entries, lanes } = trial;
  const begins = { left: EDGE + widths.left, right: 0 };
  const middle = begins.left + roomOf(channels.left, codes.left);
  begins.right = middle + widths.middle;
  const ends = { left: middle, right: begins.right + roomOf(channels.right, codes.right) };
  const boxes = trial.boxesAt({ left: EDGE, middle, right: ends.right });
  const tracks = {
    left: tracksOf(channels.left.placed, spacing),
    right: tracksOf(channels.right.placed, spacing),
  };
  const trackOf = (lead: Lead, channel: Side) =>
    begins[channel] + codes[channel] + TICK.reach + tracks[channel].get(lead)!;
  const conductors = leads.map((lead): Conductor => {
    const leave = (end: 0 | 1) => {
      const { channel, edge } = portOf(lead, end);
      const { y } = entries(lead, end);
      const x = edge === 'left' ? begins[channel] : ends[channel];
      const away = edge === 'left' ? 1 : -1;
      const start = lead.spare ? x + away * (codes[channel] + TICK.reach - SPARE_CLEAR) : x;
      const path = [
        { x: start, y },
        { x: trackOf(lead, channel), y },
      ];
      return { exit: { x, side: opposite(edge) }, path };
    };
    const [a, b] = [leave(0), leave(1)];
    const lane = lanes.get(lead);
    const over = lane === undefined ? [] : [a, b].map(({ path }) => ({ x: path[1]!.x, y: lane }));
    const points = [...a.path, ...over, ...b.path.toReversed()];
    return { lead, points, exits: [a.exit, b.exit] };
  });
  return {
    width: Math.ceil(trial.width),
    height: Math.ceil(trial.height),
    spacing,
    boxes,
    conductors,
    tags: [],
    codes: Math.max(codes.left, codes.right),
  };
}
