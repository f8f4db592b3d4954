import type { Item } from '../circuit/index.ts';
import type { Point, Rect } from './geometry.ts';
import {
  type Inside,
  idIn,
  type Line,
  type PlacedSymbol,
  type Wire,
  type Zone,
} from './inside-lines.ts';
import { armsAt } from './ladder.ts';
import { LINE } from './spacing.ts';
import { textWidth } from './text.ts';

/** Height between two sideways steps of uprights, px. */
export const JOG = 6;
/** A linkage begins on the blade of one contact and ends on the next's, px above their lines. */
const BLADE = 4;

/** An upright that passes below the terminals and stands elsewhere there. */
interface Jog {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

/**
 * Uprights that step sideways between two zones, in the order of their heights that lets
 * none cross another: those that go right from the right, those that go left from the left.
 */
export function jogsOf(upper: Zone, lower: Zone): Jog[] {
  const jogs = upper.uprights.flatMap((name, i): Jog[] => {
    const at = lower.uprights.indexOf(name);
    if (at === -1) return [];
    const jog = { name, from: upper.xs[i]!, to: lower.xs[at]! };
    return Math.abs(jog.from - jog.to) < 0.5 ? [] : [jog];
  });
  const right = jogs.filter(({ from, to }) => to > from).reverse();
  return [...right, ...jogs.filter(({ from, to }) => to < from)];
}

/** Uprights and the dots where lines join them. */
export function drawUprights(
  item: Item,
  uprights: readonly string[],
  zones: { readonly upper: Zone; readonly lower: Zone },
  lines: { readonly upper: readonly Line[]; readonly lower: readonly Line[] },
  jogTop: number,
): Pick<Inside, 'wires' | 'dots'> {
  const idOf = idIn(item);
  const jogs = jogsOf(zones.upper, zones.lower);
  const wires: Wire[] = [];
  const dots: Inside['dots'][number][] = [];
  for (const name of uprights) {
    const node = idOf(name);
    const at = (zone: Zone, of: readonly Line[]) => {
      const x = zone.xs[zone.uprights.indexOf(name)]!;
      return of
        .map(({ row, y }) => ({ x, y, arms: armsAt(row, name) }))
        .filter(({ arms }) => arms > 0);
    };
    const joins = [...at(zones.upper, lines.upper), ...at(zones.lower, lines.lower)];
    const jog = jogs.findIndex((one) => one.name === name);
    const bends = joins.map(({ x, y }) => ({ x, y }));
    if (jog !== -1) {
      const y = jogTop + jog * JOG;
      const first = bends.findIndex((bend) => bend.y > y);
      bends.splice(first, 0, { x: jogs[jog]!.from, y }, { x: jogs[jog]!.to, y });
    }
    for (let i = 1; i < bends.length; i++) {
      const [from, to] = [bends[i - 1]!, bends[i]!];
      wires.push({ node, from, to });
    }
    for (const [i, { x, y, arms }] of joins.entries()) {
      const pieces = arms + (i > 0 ? 1 : 0) + (i < joins.length - 1 ? 1 : 0);
      if (pieces > 2) dots.push({ node, x, y });
    }
  }
  return { wires, dots };
}

/** Joins each contact to the next below it that moves with it, clear of what is printed between, in letters of a size. */
export function linkagesOf(symbols: readonly PlacedSymbol[], size: number): Inside['linkages'] {
  const labels = symbols.flatMap((symbol) => labelsAt(symbol, size));
  return symbols.flatMap((upper, i) => {
    const { movesWith } = upper.step;
    if (movesWith === undefined) return [];
    const lower = symbols
      .slice(i + 1)
      .find(({ step, x }) => step.movesWith === movesWith && x === upper.x);
    if (!lower) return [];
    const ends = [upper, lower].map(({ x, y }) => ({ x, y: y - BLADE }));
    return piecesBetween(ends[0]!, ends[1]!, labels);
  });
}

/** Room kept between a linkage and letters, px. */
const TEXT_CLEAR = 1.5;
/** Height of letters above their baseline and below it, px. */
const LETTERS = { up: 9, down: 3 } as const;

/** What is printed at a symbol, as rectangles. */
const labelsAt = ({ label, labelAt, x }: PlacedSymbol, size: number): Rect[] =>
  label.map((line, i) => {
    const width = textWidth(line, size);
    const y = labelAt + i * LINE.label - LETTERS.up;
    return { x: x - width / 2, y, width, height: LETTERS.up + LETTERS.down };
  });

/** An upright line without what would lie on a text. */
function piecesBetween(from: Point, to: Point, texts: readonly Rect[]): Inside['linkages'] {
  const { x } = from;
  const onIt = texts
    .filter((text) => x > text.x - TEXT_CLEAR && x < text.x + text.width + TEXT_CLEAR)
    .sort((a, b) => a.y - b.y);
  const pieces: Inside['linkages'][number][] = [];
  let y = from.y;
  for (const text of onIt) {
    const top = text.y - TEXT_CLEAR;
    if (top > y && top < to.y) pieces.push({ from: { x, y }, to: { x, y: top } });
    y = Math.max(y, Math.min(to.y, text.y + text.height + TEXT_CLEAR));
  }
  return y < to.y ? [...pieces, { from: { x, y }, to }] : pieces;
}
