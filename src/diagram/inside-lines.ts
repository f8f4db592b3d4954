import type { Item } from '../circuit/index.ts';
import { type Gaps, labelLines } from './gaps.ts';
import { type Point, sharp } from './geometry.ts';
import type { Step } from './inside.ts';
import { type Row, reachOf } from './ladder.ts';
import { LINE } from './spacing.ts';
import { SYMBOL_SIZE } from './symbol-sizes.ts';

/** A straight piece of one node. */
export interface Wire {
  /** Node id, as in `E1#inner L`. */
  readonly node: string;
  readonly from: Point;
  readonly to: Point;
}

/** An element drawn on its line, its middle at the point. */
export interface PlacedSymbol extends Point {
  readonly step: Step;
  /** Node ids at its left and right. */
  readonly left: string;
  readonly right: string;
  readonly label: readonly string[];
  /** Baseline of the label's first line; lines are centred on the symbol. */
  readonly labelAt: number;
}

/** What a box holds inside. */
export interface Inside {
  readonly wires: readonly Wire[];
  readonly symbols: readonly PlacedSymbol[];
  /** Joins of three or more pieces of one node. */
  readonly dots: readonly (Point & { readonly node: string })[];
  /** Dashed lines between contacts that move together. */
  readonly linkages: readonly Omit<Wire, 'node'>[];
}

/** A row with the height of its line. */
export interface Line {
  readonly row: Row;
  readonly y: number;
}

/** Where the uprights and the columns of a part of the ladder stand. */
export interface Zone {
  readonly uprights: readonly string[];
  /** Uprights from the left, the terminal strip last. */
  readonly xs: readonly number[];
  /** Middle and width of each column, by gap, from the right. */
  readonly columns: readonly (readonly { readonly x: number; readonly width: number }[])[];
  readonly gapOf: ReadonlyMap<Row, number>;
  /** Size of the labels' letters, px. */
  readonly size: number;
}

/** Columns and uprights of a zone whose gaps have these widths. */
export function zoneOf(
  uprights: readonly string[],
  widths: readonly (readonly number[])[],
  { of, size }: Gaps,
  left: number,
): Zone {
  const xs = [sharp(left)];
  let at = left;
  const columns: { x: number; width: number }[][] = [];
  for (const gap of widths) {
    const end = at + gap.reduce((sum, width) => sum + width, 0);
    at = end;
    let right = end;
    columns.push(
      gap.map((width) => {
        right -= width;
        return { x: sharp(right + width / 2), width };
      }),
    );
    xs.push(sharp(end));
  }
  return { uprights, xs, columns, gapOf: of, size };
}

/** Height of a label's last baseline above its symbol. */
const LABEL_CLEAR = 3;
const BELOW = 4;
const BARE_HALF = 6;

/** Room that a row's line needs above it and below it. */
export function roomFor(row: Row, zone: Zone): { above: number; below: number } {
  let above = BARE_HALF;
  let below = BARE_HALF;
  for (const [i, { symbol, label }] of (row.rung?.steps ?? []).entries()) {
    const { up, down } = SYMBOL_SIZE[symbol];
    const { width } = zone.columns[zone.gapOf.get(row)!]![i]!;
    const lines = labelLines(label, zone.size, width).length;
    above = Math.max(above, up + 1 + (lines > 0 ? LABEL_CLEAR + lines * LINE.label : 0));
    below = Math.max(below, down + BELOW);
  }
  return { above, below };
}

/** Wires and symbols of the rows of one zone. */
export function drawRows(
  item: Item,
  lines: readonly Line[],
  zone: Zone,
): Pick<Inside, 'wires' | 'symbols'> {
  const idOf = idIn(item);
  const wires: Wire[] = [];
  const symbols: PlacedSymbol[] = [];
  for (const { row, y } of lines) {
    const [left, right] = reachOf(row, zone.uprights);
    if (left === right) continue;
    let x = zone.xs[right]!;
    let node = row.rung?.ends[0] ?? row.terminal!;
    for (const [i, step] of (row.rung?.steps ?? []).entries()) {
      const { width, up } = SYMBOL_SIZE[step.symbol];
      const column = zone.columns[zone.gapOf.get(row)!]![i]!;
      const label = labelLines(step.label, zone.size, column.width);
      const next = step.ends[1];
      wires.push({ node: idOf(node), from: { x, y }, to: { x: column.x + width / 2, y } });
      const labelAt = y - up - LABEL_CLEAR - (label.length - 1) * LINE.label;
      const ends = { left: idOf(next), right: idOf(node) };
      symbols.push({ step, x: column.x, y, ...ends, label, labelAt });
      x = column.x - width / 2;
      node = next;
    }
    wires.push({ node: idOf(node), from: { x, y }, to: { x: zone.xs[left]!, y } });
  }
  return { wires, symbols };
}

export const idIn =
  ({ reference, device }: Item) =>
  (name: string): string =>
    `${reference}${name in device.terminals ? '.' : '#'}${name}`;
