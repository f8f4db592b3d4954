import type { Network } from '../circuit/index.ts';
import { tagMiddle } from './bands.ts';
import type { Box } from './box.ts';
import type { Point, Rect, Side } from './geometry.ts';
import type { Lead } from './leads.ts';
import { itemOrder } from './order.ts';
import { type Spacing, TAG } from './spacing.ts';
import { bestTrial, EDGE, type Trial } from './trials.ts';

/** Where a conductor leaves a box: its code stands there. */
export interface Exit {
  /** The box's edge. */
  readonly x: number;
  readonly side: Side;
}

/** A conductor from its first end to its last. */
export interface Conductor {
  readonly lead: Lead;
  readonly points: readonly Point[];
  readonly exits: readonly [Exit, Exit];
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
  /** Width that labels at conductors' ends have beside a box, px. */
  readonly codes: number;
}

/** A spare core ends this far before the first upright run, so that it looks joined to none, px. */
export const SPARE_CLEAR = 2;

/** So many times as wide as its sheet, closer together helps a drawing little. */
const HOPELESS = 1.4;

/** Lays a system out: boxes in one column, conductors in a channel at their right. */
export function layOutSystem(network: Network, spacing: Spacing): Sheet {
  const order = itemOrder(network);
  const free = bestTrial(network, order, spacing);
  const over = free.width / spacing.sheet;
  if (!spacing.tight || over <= 1 || over > HOPELESS) return finish(free, spacing);
  const { apart, aim } = spacing.tight;
  const close = { ...spacing, apart, box: { ...spacing.box, aim } };
  const tight = bestTrial(network, order, close);
  return tight.width < free.width ? finish(tight, close) : finish(free, spacing);
}

function finish({ boxes, channel, codes, width }: Trial, spacing: Spacing): Sheet {
  const strip = EDGE + boxes[0]!.rect.width;
  const left = Math.ceil(strip + codes);
  const conductors = channel.placed.flatMap(({ band, x }) =>
    band.runs.map(({ lead, at: [a, b] }, i): Conductor => {
      const track = left + x + i * spacing.track;
      const start = lead.spare ? left - SPARE_CLEAR : strip;
      return {
        lead,
        points: [
          { x: start, y: a },
          { x: track, y: a },
          { x: track, y: b },
          { x: start, y: b },
        ],
        exits: [
          { x: strip, side: 'right' },
          { x: strip, side: 'right' },
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
    codes,
  };
}
