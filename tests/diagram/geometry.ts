import type { Rect, Wire } from '../../src/diagram/index.ts';

/** A straight upright or level piece. */
export interface Segment {
  readonly of: string;
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

export const segment = (of: string, from: Wire['from'], to: Wire['to']): Segment => ({
  of,
  x1: Math.min(from.x, to.x),
  y1: Math.min(from.y, to.y),
  x2: Math.max(from.x, to.x),
  y2: Math.max(from.y, to.y),
});

const isLevel = (s: Segment) => s.y1 === s.y2;

/** Whether two pieces run beside one another nearer than `clear`, px. */
export function runsBeside(a: Segment, b: Segment, clear: number): boolean {
  if (isLevel(a) !== isLevel(b)) return false;
  const [along, across] = isLevel(a)
    ? [Math.min(a.x2, b.x2) - Math.max(a.x1, b.x1), Math.abs(a.y1 - b.y1)]
    : [Math.min(a.y2, b.y2) - Math.max(a.y1, b.y1), Math.abs(a.x1 - b.x1)];
  return along > 0 && across < clear;
}

/** Whether a piece ends on or nearly on another, so that they look joined. */
export function looksJoined(a: Segment, b: Segment, clear: number): boolean {
  if (isLevel(a) === isLevel(b)) return false;
  const [level, upright] = isLevel(a) ? [a, b] : [b, a];
  const meets =
    upright.x1 >= level.x1 - clear &&
    upright.x1 <= level.x2 + clear &&
    level.y1 >= upright.y1 - clear &&
    level.y1 <= upright.y2 + clear;
  const passes =
    upright.x1 >= level.x1 + clear &&
    upright.x1 <= level.x2 - clear &&
    level.y1 >= upright.y1 + clear &&
    level.y1 <= upright.y2 - clear;
  return meets && !passes;
}

/** Whether two rectangles share more than an edge. */
export const overlap = (a: Rect, b: Rect, by = 0.01): boolean =>
  a.x + by < b.x + b.width &&
  b.x + by < a.x + a.width &&
  a.y + by < b.y + b.height &&
  b.y + by < a.y + a.height;

/** Whether a rectangle lies within another. */
export const within = (inner: Rect, outer: Rect): boolean =>
  inner.x >= outer.x - 0.01 &&
  inner.y >= outer.y - 0.01 &&
  inner.x + inner.width <= outer.x + outer.width + 0.01 &&
  inner.y + inner.height <= outer.y + outer.height + 0.01;

/** A piece as a rectangle with no area. */
export const thin = ({ x1, y1, x2, y2 }: Segment): Rect => ({
  x: x1 - 0.5,
  y: y1 - 0.5,
  width: x2 - x1 + 1,
  height: y2 - y1 + 1,
});
