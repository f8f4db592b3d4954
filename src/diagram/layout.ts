import type { Network } from '../circuit/index.ts';
import { cheapest } from './arrange.ts';
import { bandsOf, tagMiddle } from './bands.ts';
import { type Box, boxNeed, type Fill, makeBox } from './box.ts';
import { type Channel, fillChannel } from './channel.ts';
import type { Point, Rect } from './geometry.ts';
import { codeOf, type Lead, leadsOf } from './leads.ts';
import { itemOrder } from './order.ts';
import { type Plan, planInside } from './plan.ts';
import { Slots } from './slots.ts';
import { type Spacing, TAG, TYPE } from './spacing.ts';
import { textWidth } from './text.ts';

/** A conductor from its first end to its last. */
export interface Conductor {
  readonly lead: Lead;
  readonly points: readonly [Point, Point, Point, Point];
}

/** A cable's reference across its cores. */
export interface Tag extends Rect {
  readonly cable: string;
}

/** Everything of a drawing and where it stands. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly spacing: Spacing;
  readonly boxes: readonly Box[];
  readonly conductors: readonly Conductor[];
  readonly tags: readonly Tag[];
  /** Where labels at conductors' ends begin and where they have ended, px. */
  readonly codes: { readonly from: number; readonly to: number };
}

/** Half an outline, so that it is not cut off. */
const EDGE = 1;
const CODE_SIDE = 5;
const SLEEVE_ROOM = 6;
const RIGHT_EDGE = 5;
/** Slots and widths depend on one another; they settle in a few rounds or go no further. */
const ROUNDS = 4;

interface Parts {
  readonly network: Network;
  readonly order: readonly string[];
  readonly plans: ReadonlyMap<string, Plan>;
  readonly leads: readonly Lead[];
  readonly spacing: Spacing;
}

/** Lays a system out: boxes in one column, conductors in a channel at their right. */
export function layOutSystem(network: Network, spacing: Spacing): Sheet {
  const order = itemOrder(network);
  const leads = leadsOf(network, order);
  const plans = new Map([...network.items].map(([id, item]) => [id, planInside(item, spacing)]));
  const parts: Parts = { network, order, plans, leads, spacing };
  const codes = codeRoom(leads, spacing);
  const least = Math.max(
    ...order.map((id) => boxNeed(network.items.get(id)!, plans.get(id)!, spacing)),
  );
  const beside = (channel: number) => 2 * EDGE + codes + channel + RIGHT_EDGE;

  const slots = new Slots(leads, order);
  const trials: Trial[] = [];
  let width = least;
  for (let round = 0; round < ROUNDS; round++) {
    const boxes = stack(parts, width, slots);
    const channel = fillChannel(
      bandsOf(leads, heightsIn(boxes, slots), gapsIn(parts, boxes)),
      spacing,
    );
    trials.push({ boxes, channel, codes, width: width + beside(channel.width) });
    slots.settle(channel.placed, spacing);
    width = Math.max(least, Math.floor(spacing.sheet - beside(channel.width)));
  }
  return finish(cheapest(trials, (trial) => misfit(trial, spacing))!, spacing);
}

interface Trial {
  readonly boxes: readonly Box[];
  readonly channel: Channel;
  readonly codes: number;
  /** Of the whole drawing. */
  readonly width: number;
}

/** A drawing wider than the sheet is worst, then crossings, then unused width. */
function misfit({ width, channel }: Trial, { sheet }: Spacing): number {
  const over = width > sheet ? 10 * (width - sheet) : (sheet - width) / 10;
  return over + channel.crossings;
}

const codeRoom = (leads: readonly Lead[], { cableAtEnds }: Spacing): number =>
  Math.max(
    0,
    ...leads.map(
      (lead) =>
        textWidth(codeOf(lead, cableAtEnds), TYPE.code, true) + (lead.sleeve ? SLEEVE_ROOM : 0),
    ),
  ) +
  2 * CODE_SIDE;

function stack(
  { network, order, plans, leads, spacing }: Parts,
  width: number,
  slots: Slots,
): Box[] {
  let y = EDGE;
  return order.map((id) => {
    const fill: Fill = {
      ends: slots.counts,
      spares: leads.flatMap(({ spare, items, ends }) =>
        spare ? ends.filter((_, i) => items[i] === id) : [],
      ),
    };
    const corner = { x: EDGE, y };
    const box = makeBox(network.items.get(id)!, plans.get(id)!, fill, corner, width, spacing);
    y += box.rect.height + spacing.gap;
    return box;
  });
}

function heightsIn(boxes: readonly Box[], slots: Slots): (lead: Lead, end: 0 | 1) => number {
  const cells = new Map(boxes.flatMap((box) => box.cells.map((cell) => [cell.id, cell.slots])));
  const spares = new Map(boxes.flatMap((box) => [...box.spares]));
  return (lead, end) => {
    const node = lead.ends[end];
    return spares.get(node) ?? cells.get(node)![slots.indexOf(lead, end)]!;
  };
}

/** Middles of the gaps next to a cable's two items, where nothing else is. */
function gapsIn(
  { order, spacing }: Parts,
  boxes: readonly Box[],
): (items: readonly [string, string]) => number[] {
  const below = (i: number) => boxes[i]!.rect.y + boxes[i]!.rect.height + spacing.gap / 2;
  return ([upper, lower]) => {
    const [first, last] = [order.indexOf(upper), order.indexOf(lower) - 1];
    if (last < first) return [];
    return first === last ? [below(first)] : [below(first), below(last)];
  };
}

function finish({ boxes, channel, codes, width }: Trial, spacing: Spacing): Sheet {
  const strip = EDGE + boxes[0]!.rect.width;
  const left = strip + codes;
  const conductors = channel.placed.flatMap(({ band, x }) =>
    band.runs.map(({ lead, at: [a, b] }, i): Conductor => {
      const track = left + x + i * spacing.track;
      const start = lead.spare ? left : strip;
      return {
        lead,
        points: [
          { x: start, y: a },
          { x: track, y: a },
          { x: track, y: b },
          { x: start, y: b },
        ],
      };
    }),
  );
  const tags = channel.placed.flatMap((placed) =>
    placed.band.tags.map((y): Tag => {
      const { tagWidth, cable = '' } = placed.band;
      const x = left + tagMiddle(placed, spacing) - tagWidth / 2;
      return { cable, x, y: y - TAG.height / 2, width: tagWidth, height: TAG.height };
    }),
  );
  const last = boxes.at(-1)!.rect;
  return {
    width: Math.ceil(width),
    height: Math.ceil(last.y + last.height + EDGE),
    spacing,
    boxes,
    conductors,
    tags,
    codes: { from: strip, to: left },
  };
}
