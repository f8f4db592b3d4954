/** Lengths are in px of the drawing, y downward. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** An upright rectangle by its top left corner. */
export interface Rect extends Point {
  readonly width: number;
  readonly height: number;
}

/** The side of a box or a channel. */
export type Side = 'left' | 'right';

/** A closed interval of heights, top ≤ bottom. */
export interface Span {
  readonly top: number;
  readonly bottom: number;
}

/** The middle of a px, where a thin upright or level line is sharp. */
export const sharp = (n: number): number => Math.floor(n) + 0.5;

/** The span between two heights given in either order. */
export const spanOf = (a: number, b: number): Span => ({
  top: Math.min(a, b),
  bottom: Math.max(a, b),
});

/** Whether two spans come nearer to one another than `clear`. */
export const meets = (a: Span, b: Span, clear = 0): boolean =>
  a.top < b.bottom + clear && b.top < a.bottom + clear;
