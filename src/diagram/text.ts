/**
 * Advance widths of upright sans-serif letters, thousandths of the type size
 * (Helvetica's published metrics, from memory). Fonts named in the styles share them.
 */
const WIDTHS: Readonly<Record<number, string>> = {
  222: "ijl'’",
  278: ' \u00a0ftI.,:;/·',
  333: 'r-()²',
  500: 'ckvxyzsJ',
  556: 'abdeghnopquL0123456789#–',
  584: '+=',
  611: 'FTZ',
  667: 'ABEKPSVXY&',
  722: 'CDHNRUw',
  778: 'GOQ',
  833: 'mM',
  944: 'W',
};
const widthOf = new Map(
  Object.entries(WIDTHS).flatMap(([width, letters]) =>
    [...letters].map((letter) => [letter, Number(width) / 1000] as const),
  ),
);
const UNLISTED = 0.6;
const BOLDER = 1.07;

/** Width of a text in one line, px. Bold letters count 7 % wider. */
export function textWidth(text: string, size: number, bold = false): number {
  let width = 0;
  for (const letter of text) width += widthOf.get(letter) ?? UNLISTED;
  return width * size * (bold ? BOLDER : 1);
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
