import type { Item } from '../circuit/index.ts';
import type { Point } from './geometry.ts';
import { LINE, type Spacing, TYPE } from './spacing.ts';
import { textWidth, widestPart, wrap } from './text.ts';

/** A text of one line, at the start of its baseline. */
export interface Words extends Point {
  readonly text: string;
  readonly kind: 'reference' | 'title' | 'place' | 'label';
}

const AFTER_REFERENCE = 8;

const titleFrom = ({ reference }: Item, { pad }: Spacing): number =>
  pad + textWidth(reference, TYPE.reference, true) + AFTER_REFERENCE;

/** Least width of a box that holds the heading, px. */
export const headingNeed = (item: Item, spacing: Spacing): number =>
  titleFrom(item, spacing) +
  Math.max(widestPart(item.title, TYPE.title, true), widestPart(item.place, TYPE.place)) +
  spacing.pad;

/** An item's reference, title and place at the top of its box, and the height where they end. */
export function makeHeading(
  item: Item,
  corner: Point,
  width: number,
  spacing: Spacing,
): { words: Words[]; bottom: number } {
  const x = corner.x + titleFrom(item, spacing);
  const room = corner.x + width - spacing.pad - x;
  let y = corner.y + spacing.head;
  const words: Words[] = [];
  for (const text of wrap(item.title, TYPE.title, room, true)) {
    words.push({ text, kind: 'title', x, y: y + 13 });
    y += LINE.title;
  }
  words.unshift({
    text: item.reference,
    kind: 'reference',
    x: corner.x + spacing.pad,
    y: corner.y + spacing.head + 13,
  });
  for (const text of wrap(item.place, TYPE.place, room)) {
    words.push({ text, kind: 'place', x, y: y + 12 });
    y += LINE.title - 1;
  }
  return { words, bottom: y + spacing.head };
}
