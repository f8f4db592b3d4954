import type { Item } from '../circuit/index.ts';
import { terminalMark } from '../words/index.ts';
import { type Cell, cellNeed, type Ends, type Face, isBare, makeCell } from './cells.ts';
import { stretch } from './gaps.ts';
import { type Point, type Rect, sharp } from './geometry.ts';
import { headingNeed, makeHeading, type Words } from './heading.ts';
import { drawRows, type Inside, type Line, roomFor, type Zone, zoneOf } from './inside-lines.ts';
import type { Plan } from './plan.ts';
import { LINE, type Spacing } from './spacing.ts';
import { wrap } from './text.ts';
import { foldedIn } from './unused.ts';
import { drawUprights, JOG, jogsOf, linkagesOf } from './uprights.ts';

/** An item drawn as a box, in the drawing's coordinates. */
export interface Box extends Inside {
  readonly item: string;
  readonly rect: Rect;
  /** Where its conductors leave it. */
  readonly face: Face;
  readonly heading: readonly Words[];
  /** Height of the line under the heading. */
  readonly rule: number;
  readonly cells: readonly Cell[];
  /** Height at which each spare core of this item ends, by node id. */
  readonly spares: ReadonlyMap<string, number>;
}

/** What a box must hold besides its device. */
export interface Fill {
  /** Conductors' ends in each terminal, by node id. */
  readonly ends: ReadonlyMap<string, Ends>;
  /** Ends of spare cores, by node id. */
  readonly spares: readonly string[];
}

const UNDER_STRIP = 8;
const BOTTOM = 4;

/** Least width of an item's box, px. */
export const boxNeed = (item: Item, plan: Plan, spacing: Spacing): number =>
  Math.max(plan.need, headingNeed(item, spacing));

/** Where a box stands. */
export interface Stand {
  /** Its top left corner. */
  readonly corner: Point;
  readonly width: number;
  readonly face: Face;
}

const NO_ENDS: Ends = { left: 0, right: 0 };

/** Draws an item as a box. */
export function makeBox(
  item: Item,
  plan: Plan,
  fill: Fill,
  { corner, width, face }: Stand,
  spacing: Spacing,
): Box {
  const onGrid = (n: number) => (spacing.grid ? spacing.grid * Math.ceil(n / spacing.grid) : n);
  const heading = makeHeading(item, corner, width, spacing);
  const rule = corner.y + onGrid(heading.bottom - corner.y);
  const strip = isBare(item) ? width : cellNeed(item);
  const cellsFrom = corner.x + width - strip;
  const zones = zonesOf(plan, corner.x + spacing.pad, cellsFrom, width - 2 * spacing.pad);
  const cells: Cell[] = [];
  const lines: { upper: Line[]; lower: Line[] } = { upper: [], lower: [] };
  let y = rule;
  for (const row of plan.ladder.upper) {
    const { above, below } = roomFor(row, zones.upper);
    const ends = fill.ends.get(`${item.reference}.${row.terminal}`) ?? NO_ENDS;
    const at = { x: cellsFrom, y };
    const room = { corner: at, width: strip, atLeast: above + below, face };
    const cell = makeCell(item, row.terminal!, ends, room, spacing);
    cells.push(cell);
    const over = cell.rect.height - above - below;
    lines.upper.push({ row, y: sharp(y + above + over / 2) });
    y += cell.rect.height;
  }
  const folded = foldedIn(item, plan);
  if (folded.length > 0) {
    const text = `Not used: ${folded.map(terminalMark).join(', ')}`;
    const x = corner.x + spacing.pad;
    for (const line of wrap(text, spacing.letters.label, width - 2 * spacing.pad)) {
      y += LINE.title;
      heading.words.push({ text: line, kind: 'label', x, y });
    }
    y = corner.y + onGrid(y + UNDER_STRIP - corner.y);
  }
  const jogTop = sharp(y + UNDER_STRIP);
  if (plan.ladder.lower.length > 0) {
    y += UNDER_STRIP + jogsOf(zones.upper, zones.lower).length * JOG;
    for (const row of plan.ladder.lower) {
      const { above, below } = roomFor(row, zones.lower);
      lines.lower.push({ row, y: sharp(y + above) });
      y += Math.ceil(above + below);
    }
    y += BOTTOM;
  }
  const spares = new Map<string, number>();
  if (fill.spares.length > 0) y = corner.y + onGrid(y - corner.y);
  for (const id of fill.spares) {
    spares.set(id, spacing.grid ? y + spacing.grid : y + spacing.slot / 2 + 1);
    y += spacing.grid ? spacing.grid : spacing.slot + 2;
  }
  if (spares.size > 0) y += spacing.grid ? spacing.grid : BOTTOM;
  const uprights = drawUprights(item, plan.ladder.uprights, zones, lines, jogTop);
  const upper = drawRows(item, lines.upper, zones.upper);
  const lower = drawRows(item, lines.lower, zones.lower);
  const symbols = [...upper.symbols, ...lower.symbols];
  const box: Box = {
    item: item.reference,
    rect: { ...corner, width, height: y - corner.y },
    face,
    heading: heading.words,
    rule,
    cells,
    spares,
    wires: [...upper.wires, ...lower.wires, ...uprights.wires],
    dots: uprights.dots,
    symbols,
    linkages: linkagesOf(symbols, spacing.letters.label),
  };
  return face === 'left' ? turned(box) : box;
}

/** The same box with its strip at its left: what lies inside it turned round, its texts not. */
function turned(box: Box): Box {
  const { x, width } = box.rect;
  const over = (at: number) => 2 * x + width - at;
  const end = <P extends Point>(point: P): P => ({ ...point, x: over(point.x) });
  return {
    ...box,
    cells: box.cells.map((cell) => ({
      ...cell,
      rect: { ...cell.rect, x: over(cell.rect.x + cell.rect.width) },
    })),
    wires: box.wires.map((wire) => ({ ...wire, from: end(wire.from), to: end(wire.to) })),
    linkages: box.linkages.map(({ from, to }) => ({ from: end(from), to: end(to) })),
    dots: box.dots.map(end),
    symbols: box.symbols.map((symbol) => ({
      ...end(symbol),
      left: symbol.right,
      right: symbol.left,
    })),
  };
}

/** Beside the strip the uprights share what it leaves; below it they have the whole box. */
function zonesOf(
  { beside, below, upper, lower }: Plan,
  left: number,
  strip: number,
  whole: number,
): { upper: Zone; lower: Zone } {
  return {
    upper: zoneOf(beside, stretch(upper, strip - left), upper, left),
    lower: zoneOf(below, stretch(lower, whole), lower, left),
  };
}
