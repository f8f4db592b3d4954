import type { Item } from '../circuit/index.ts';
import { terminalMark } from '../words/index.ts';
import type { Point, Rect } from './geometry.ts';
import { LINE, SCREW, type Spacing, TYPE } from './spacing.ts';
import { textWidth, wrap } from './text.ts';

/** A terminal in the strip at a box's right edge. */
export interface Cell {
  /** As in `E1.call feed`. */
  readonly id: string;
  readonly name: string;
  /** Baseline of the name from the cell's top, px. */
  readonly nameAt: number;
  /** What the terminal serves in this system, in lines. */
  readonly label: readonly string[];
  /** Start of the label's first baseline, from the cell's top left corner. */
  readonly labelAt: Point;
  readonly rect: Rect;
  /** Heights at which conductors enter, top first; one even where none does. */
  readonly slots: readonly number[];
  readonly earth: 'none' | 'protective' | 'parking';
  readonly extraLow: boolean;
}

export const CELL_SIDE = 6;
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
export function cellNeed(item: Item): number {
  const names = nameColumn(item);
  if (!labelled(item)) return Math.ceil(names + SCREW.room);
  const words = isBare(item) ? names + LABEL_BESIDE : Math.max(names, LABEL_UNDER);
  return Math.ceil(words + SCREW.room);
}

/** A terminal's cell, as high as its conductors and its label ask for, or more. */
export function makeCell(
  item: Item,
  name: string,
  ends: number,
  corner: Point,
  width: number,
  atLeast: number,
  { row, slot }: Spacing,
): Cell {
  const id = `${item.reference}.${name}`;
  const terminal = item.device.terminals[name]!;
  const beside = isBare(item);
  const left = beside ? nameColumn(item) : CELL_SIDE;
  const served = item.labels[name];
  const label = served ? wrap(served, TYPE.label, width - left - SCREW.room) : [];
  const words = label.length * LINE.label;
  const text = (beside ? words : words + (words > 0 ? LINE.title : 0)) + 8;
  const count = Math.max(1, ends);
  const height = Math.ceil(Math.max(atLeast, count * slot + 6, text, row));
  const middle = height / 2;
  const nameAt = beside ? middle + DROP : middle + DROP - words / 2;
  const labelTop = beside ? middle + 4 - (words - LINE.label) / 2 : nameAt + LINE.label + 1;
  return {
    id,
    name,
    nameAt,
    label,
    labelAt: { x: left, y: labelTop },
    rect: { ...corner, width, height },
    slots: Array.from({ length: count }, (_, i) =>
      Math.round(corner.y + middle + (i - (count - 1) / 2) * slot),
    ),
    earth: terminal.carries === 'earth' ? earthOf(item) : 'none',
    extraLow: terminal.voltage === 'extra-low',
  };
}

/** A control of class II only parks the protective conductor. */
const earthOf = ({ device }: Item): 'protective' | 'parking' =>
  device.protection !== 'class I' && ['control', 'receiver', 'sensor'].includes(device.family)
    ? 'parking'
    : 'protective';
