import type { Network } from '../circuit/index.ts';
import { cheapest } from './arrange.ts';
import { bandsOf, type Entry } from './bands.ts';
import { type Box, boxNeed, type Fill, makeBox } from './box.ts';
import { type Channel, fillChannel } from './channel.ts';
import { codeOf, type Lead, leadsOf } from './leads.ts';
import { type Plan, planInside } from './plan.ts';
import { type Slots, slotsInColumn, tracksOf } from './slots.ts';
import type { Spacing } from './spacing.ts';
import { textWidth } from './text.ts';

/** A drawing before its conductors are traced. */
export interface Trial {
  readonly boxes: readonly Box[];
  readonly channel: Channel;
  /** Width of the labels at conductors' ends, px. */
  readonly codes: number;
  /** Of the whole drawing, px. */
  readonly width: number;
}

/** Round the drawing, so that no outline is cut off, px. */
export const EDGE = 1.5;
const RIGHT_EDGE = 1;
/** Before a label and after it, where a conductor must be seen to go on, px. */
const CODE_SIDES = 4 + 6;
const SLEEVE_ROOM = 6;
/** Slots and widths depend on one another; they settle in a few rounds or go no further. */
const ROUNDS = 4;

interface Parts {
  readonly network: Network;
  readonly order: readonly string[];
  readonly plans: ReadonlyMap<string, Plan>;
  readonly leads: readonly Lead[];
  readonly spacing: Spacing;
}

/** The best drawing found of a system whose items stand in a given order. */
export function bestTrial(network: Network, order: readonly string[], spacing: Spacing): Trial {
  const items = [...network.items];
  const plans = new Map(items.map(([id, item]) => [id, planInside(item, spacing)]));
  const leads = leadsOf(network, order);
  const parts: Parts = { network, order, plans, leads, spacing };
  const needs = items.map(([id, item]) => boxNeed(item, plans.get(id)!, spacing));
  const least = Math.ceil(Math.max(...needs));
  const codes = codeRoom(leads, spacing);
  const beside = (channel: number) => 2 * EDGE + codes + channel + RIGHT_EDGE;

  const slots = slotsInColumn(leads, order);
  const trials: Trial[] = [];
  let width = least;
  for (let round = 0; round < ROUNDS; round++) {
    const boxes = stack(parts, slots, width);
    const bands = bandsOf(leads, entriesIn(boxes, slots), gapsIn(parts, boxes), spacing);
    const channel = fillChannel(bands, spacing);
    trials.push({ boxes, channel, codes, width: width + beside(channel.width) });
    const tracks = tracksOf(channel.placed, spacing);
    slots.settle((end) => {
      end.reach = tracks.get(end.lead) ?? end.reach;
    });
    const room = Math.floor(spacing.sheet - beside(channel.width));
    width = Math.max(least, Math.min(room, spacing.box.most));
  }
  return cheapest(trials, (trial) => misfit(trial, spacing))!;
}

/** A drawing wider than the sheet is worst, then crossings, then unused width. */
function misfit({ width, channel }: Trial, { sheet }: Spacing): number {
  const over = width > sheet ? 10 * (width - sheet) : (sheet - width) / 10;
  return over + channel.crossings;
}

function stack(parts: Parts, slots: Slots, width: number): Box[] {
  const { network, order, plans, leads, spacing } = parts;
  let y = EDGE;
  return order.map((id) => {
    const spares = leads.flatMap(({ spare, items, ends }) =>
      spare ? ends.filter((_, i) => items[i] === id) : [],
    );
    const fill: Fill = { ends: slots.counts, spares };
    const stand = { corner: { x: EDGE, y }, width, face: 'right' } as const;
    const box = makeBox(network.items.get(id)!, plans.get(id)!, fill, stand, spacing);
    y += box.rect.height + spacing.gap;
    return box;
  });
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

/** Height of each end of a lead. */
function entriesIn(boxes: readonly Box[], slots: Slots): (lead: Lead, end: 0 | 1) => Entry {
  const cells = new Map(
    boxes.flatMap((box) => box.cells.map((cell) => [cell.id, cell.slots.right])),
  );
  const spares = new Map(boxes.flatMap((box) => [...box.spares]));
  return (lead, end) => {
    const node = lead.ends[end];
    const y = spares.get(node) ?? cells.get(node)![slots.indexOf(lead, end)]!;
    return { y, side: 'left' };
  };
}

/** Room for the longest label at a conductor's end. */
export const codeRoom = (leads: readonly Lead[], { cableAtEnds, letters }: Spacing): number =>
  Math.max(
    0,
    ...leads.map(
      (lead) =>
        textWidth(codeOf(lead, cableAtEnds), letters.code, true) + (lead.sleeve ? SLEEVE_ROOM : 0),
    ),
  ) + CODE_SIDES;
