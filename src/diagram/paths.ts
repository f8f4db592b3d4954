import type { Point } from './geometry.ts';
import { round } from './markup.ts';

/** Radius of a conductor's corners, px. */
const CORNER = 4;

/** A straight path. */
export const straight = (from: Point, to: Point): string =>
  `M${at(from)}${from.y === to.y ? `H${round(to.x)}` : `V${round(to.y)}`}`;

/** An orthogonal path with its corners rounded. */
export function rounded(points: readonly Point[]): string {
  let path = `M${at(points[0]!)}`;
  for (let i = 1; i < points.length - 1; i++) {
    const [before, corner, after] = [points[i - 1]!, points[i]!, points[i + 1]!];
    const reach = Math.min(CORNER, distance(before, corner) / 2, distance(corner, after) / 2);
    path += `L${at(towards(corner, before, reach))}Q${at(corner)} ${at(towards(corner, after, reach))}`;
  }
  return `${path}L${at(points.at(-1)!)}`;
}

const at = ({ x, y }: Point): string => `${round(x)} ${round(y)}`;

const distance = (a: Point, b: Point): number => Math.abs(a.x - b.x) + Math.abs(a.y - b.y);

const towards = (from: Point, to: Point, by: number): Point => ({
  x: from.x + Math.sign(to.x - from.x) * by,
  y: from.y + Math.sign(to.y - from.y) * by,
});
