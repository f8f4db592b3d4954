/**
 * Advance widths of upright and of bold sans-serif letters, thousandths of the type size
 * (Helvetica's published metrics, from memory). The fonts named in the styles share them.
 */
const UPRIGHT: Readonly<Record<number, string>> = {
  191: "'",
  222: 'ijl’',
  278: ' \u00a0ftI.,:;/·',
  333: 'r-()²',
  500: 'ckvxyzsJ',
  556: 'abdeghnopquL0123456789#–',
  584: '+=<>',
  611: 'FTZ',
  667: 'ABEKPSVXY&',
  722: 'CDHNRUw',
  778: 'GOQ',
  833: 'mM',
  944: 'W',
};
const BOLD: Readonly<Record<number, string>> = {
  238: "'",
  278: ' \u00a0ijlI.,/·’',
  333: 'ft-():;²',
  389: 'r',
  500: 'z',
  556: 'aceksvxyJ0123456789#–',
  584: '+=<>',
  611: 'bdghnopquFLTZ',
  667: 'EPSVXY',
  722: 'ABCDHKNRU&',
  778: 'wGOQ',
  833: 'M',
  889: 'm',
  944: 'W',
};
const UNLISTED = 0.6;

const byLetter = (widths: Readonly<Record<number, string>>) =>
  new Map(
    Object.entries(widths).flatMap(([width, letters]) =>
      [...letters].map((letter) => [letter, Number(width) / 1000] as const),
    ),
  );
const upright = byLetter(UPRIGHT);
const heavy = byLetter(BOLD);

/** Width of a text in one line, px. */
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
