import type { Item } from '../circuit/index.ts';
import { terminalMark } from '../words/index.ts';
import type { Point, Rect, Side } from './geometry.ts';
import { LINE, SCREW, type Spacing, TYPE } from './spacing.ts';
import { textWidth, wrap } from './text.ts';

/** A terminal in the strip at a box's right edge. */
export interface Cell {
  /** As in `E1.call feed`. */
  readonly id: string;
  readonly name: string;
  /** Start of the name from the cell's left edge, px. */
  readonly nameFrom: number;
  /** Baseline of the name from the cell's top, px. */
  readonly nameAt: number;
  /** What the terminal serves in this system, in lines. */
  readonly label: readonly string[];
  /** Start of the label's first baseline, from the cell's top left corner. */
  readonly labelAt: Point;
  readonly rect: Rect;
  /**
   * Heights at which conductors enter, top first, by the side they come from; one on the side
   * that the box faces even where none does.
   */
  readonly slots: Readonly<Record<Side, readonly number[]>>;
  readonly earth: 'none' | 'protective' | 'parking';
  readonly extraLow: boolean;
}

/** Where a box's conductors leave it: on one side, or on both where nothing is inside. */
export type Face = Side | 'both';

/** How many conductors' ends there are in a terminal on each side. */
export type Ends = Readonly<Record<Side, number>>;

const CELL_SIDE = 6;
/** Room of the earth mark after a terminal's name. */
const EARTH_MARK = 15;
/** Least room for what a terminal serves: beside its name, under its name. */
const LABEL_BESIDE = 84;
const LABEL_UNDER = 62;
const DROP = 4.6;

const labelled = ({ labels }: Item): boolean => Object.keys(labels).length > 0;

/** Whether nothing is inside, so that labels have the whole box. */
export const isBare = ({ device }: Item): boolean => Object.keys(device.elements).length === 0;

/** Width of a strip's names with their sides, px. */
const nameColumn = ({ device }: Item): number =>
  2 * CELL_SIDE +
  Math.max(
    0,
    ...Object.entries(device.terminals).map(
      ([name, { carries }]) =>
        textWidth(terminalMark(name), TYPE.name, true) + (carries === 'earth' ? EARTH_MARK : 0),
    ),
  );

/** Least width of an item's terminal strip, px. */
export function cellNeed(item: Item, face: Face = 'right'): number {
  const names = nameColumn(item);
  const screws = face === 'both' ? 2 * SCREW.room : SCREW.room;
  if (!labelled(item)) return Math.ceil(names + screws);
  const words = isBare(item) ? names + LABEL_BESIDE : Math.max(names, LABEL_UNDER);
  return Math.ceil(words + screws);
}

/** What a cell is made for. */
export interface CellRoom {
  readonly corner: Point;
  readonly width: number;
  /** Height that what stands beside it asks for, px. */
  readonly atLeast: number;
  readonly face: Face;
}

/** A terminal's cell, as high as its conductors and its label ask for, or more. */
export function makeCell(
  item: Item,
  name: string,
  ends: Ends,
  { corner, width, atLeast, face }: CellRoom,
  spacing: Spacing,
): Cell {
  const terminal = item.device.terminals[name]!;
  const beside = isBare(item);
  const before = face === 'right' ? 0 : SCREW.room - 2;
  const after = face === 'left' ? 2 : SCREW.room;
  const left = before + (beside ? nameColumn(item) : CELL_SIDE);
  const served = item.labels[name];
  const label = served ? wrap(served, spacing.letters.label, width - left - after) : [];
  const words = label.length * LINE.label;
  const text = (beside ? words : words + (words > 0 ? LINE.title : 0)) + 8;
  const counts = face === 'both' ? ends : { left: 0, right: 0, [face]: Math.max(1, ends[face]) };
  const most = Math.max(1, counts.left, counts.right);
  const height = heightOf(Math.max(atLeast, text, spacing.row), most, spacing);
  const middle = Math.min(middleOf(height, most, spacing), height - text / 2);
  const nameAt = beside ? middle + DROP : middle + DROP - words / 2;
  const labelTop = beside ? middle + 4 - (words - LINE.label) / 2 : nameAt + LINE.label + 1;
  const slotsOf = (count: number) =>
    Array.from({ length: count }, (_, i) =>
      Math.round(
        corner.y + middleOf(height, count, spacing) + (i - (count - 1) / 2) * spacing.slot,
      ),
    );
  return {
    id: `${item.reference}.${name}`,
    name,
    nameFrom: before + CELL_SIDE,
    nameAt,
    label,
    labelAt: { x: left, y: labelTop },
    rect: { ...corner, width, height },
    slots: { left: slotsOf(counts.left), right: slotsOf(counts.right) },
    earth: terminal.carries === 'earth' ? earthOf(item) : 'none',
    extraLow: terminal.voltage === 'extra-low',
  };
}

/** Height for so many conductors, on the grid where there is one. */
const heightOf = (atLeast: number, count: number, { slot, grid }: Spacing): number =>
  grid === undefined
    ? Math.ceil(Math.max(atLeast, count * slot + 6))
    : grid * Math.ceil(Math.max(atLeast, (count + 1) * slot) / grid);

/** Middle of a cell's conductors: its own, or the nearest that puts each of them on the grid. */
function middleOf(height: number, count: number, { grid }: Spacing): number {
  if (grid === undefined) return height / 2;
  const isOn = (height / grid - count) % 2 !== 0;
  return isOn ? height / 2 : (height + grid) / 2;
}

/** A control of class II only parks the protective conductor. */
const earthOf = ({ device }: Item): 'protective' | 'parking' =>
  device.protection !== 'class I' && ['control', 'receiver', 'sensor'].includes(device.family)
    ? 'parking'
    : 'protective';
