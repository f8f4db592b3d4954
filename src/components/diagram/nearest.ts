/** A terminal's cell where it is drawn, px of the screen. */
export interface DrawnCell {
  readonly id: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/**
 * Half of what a finger finds, 44 px wide and high (WCAG 2.2, success criterion 2.5.5): a tap meant
 * for the middle of such a target falls no further beside it, px.
 */
export const FINGERTIP = 22;

/** How far a point lies outside a cell; nothing inside it. */
const outside = (cell: DrawnCell, x: number, y: number): number =>
  Math.hypot(
    Math.max(cell.left - x, 0, x - cell.right),
    Math.max(cell.top - y, 0, y - cell.bottom),
  );

const fromMiddle = (cell: DrawnCell, x: number, y: number): number =>
  Math.hypot((cell.left + cell.right) / 2 - x, (cell.top + cell.bottom) / 2 - y);

/**
 * Terminals that a tap may have meant, the nearest first.
 * @param within how far beside a cell a tap may fall, px
 */
export const nearest = (
  cells: readonly DrawnCell[],
  x: number,
  y: number,
  within: number,
): string[] =>
  cells
    .filter((cell) => outside(cell, x, y) <= within)
    .toSorted(
      (a, b) => outside(a, x, y) - outside(b, x, y) || fromMiddle(a, x, y) - fromMiddle(b, x, y),
    )
    .map(({ id }) => id);
