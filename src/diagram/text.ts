import { BOLD, REGULAR } from './advances.ts';

/** Width of a character that the served face has not, in sizes of the type. */
const UNLISTED = 0.6;

const byLetter = (widths: Readonly<Record<number, string>>) =>
  new Map(
    Object.entries(widths).flatMap(([width, letters]) =>
      [...letters].map((letter) => [letter, Number(width) / 1000] as const),
    ),
  );
const upright = byLetter(REGULAR);
const heavy = byLetter(BOLD);

/** Width of a text in one line as the served face sets it, letters not drawn together; px. */
export function textWidth(text: string, size: number, bold = false): number {
  const widths = bold ? heavy : upright;
  let width = 0;
  for (const letter of text) width += widths.get(letter) ?? UNLISTED;
  return width * size;
}

/** Where a line may break: after a space, and after a hyphen or a solidus before a whole word. */
const BREAK = /(?<= )(?! )|(?<=[-/])(?=[A-Za-z]{3})/;
const partsOf = (text: string): string[] => text.split(BREAK).filter((part) => part !== '');

/** Width of the widest part that cannot be broken, px. */
export const widestPart = (text: string, size: number, bold = false): number =>
  Math.max(0, ...partsOf(text).map((part) => textWidth(part.trim(), size, bold)));

/** Breaks a text into lines no wider than `width` px, unless one part alone is wider. */
export function wrap(text: string, size: number, width: number, bold = false): string[] {
  const lines: string[] = [];
  let line = '';
  for (const part of partsOf(text)) {
    if (line !== '' && textWidth((line + part).trimEnd(), size, bold) > width) {
      lines.push(line.trimEnd());
      line = '';
    }
    line += part;
  }
  if (line !== '') lines.push(line.trimEnd());
  return lines;
}
