import {
  type Box,
  type PlacedSymbol,
  type Rect,
  type Sheet,
  SYMBOL_SIZE,
  TYPE,
  textWidth,
} from '../../src/diagram/index.ts';
import { terminalMark } from '../../src/words/index.ts';
import {
  looksJoined,
  overlap,
  runsBeside,
  type Segment,
  segment,
  thin,
  within,
} from './geometry.ts';
import { acrossBreaches, codeBreaches, endBreaches, segmentsOf } from './laws-outside.ts';

/** Breaches of what every drawing must keep, each in a few words; none when it is sound. */
export const breaches = (sheet: Sheet): string[] => [
  ...boxBreaches(sheet),
  ...sheet.boxes.flatMap((box) => insideBreaches(box, sheet.spacing.letters.label)),
  ...sheet.boxes.flatMap((box) => wordBreaches(box, sheet.spacing.letters.label)),
  ...codeBreaches(sheet),
  ...endBreaches(sheet),
  ...(sheet.spacing.grid ? acrossBreaches(sheet) : channelBreaches(sheet)),
];

/** Every two different members of a list. */
export function* pairs<T>(values: readonly T[]): Generator<readonly [T, T]> {
  for (const [i, a] of values.entries()) for (const b of values.slice(i + 1)) yield [a, b];
}

/** Least height a finger finds (WCAG 2.2, success criterion 2.5.8: 24 CSS px). */
const FINGER = 24;
const JOIN_CLEAR = 2;

function boxBreaches({ boxes, width, height }: Sheet): string[] {
  const found: string[] = [];
  const page = { x: 0, y: 0, width, height };
  for (const { item, rect, cells } of boxes) {
    if (!within(rect, page)) found.push(`${item} leaves the sheet`);
    for (const cell of cells) {
      if (!within(cell.rect, rect)) found.push(`${cell.id} leaves its box`);
      if (cell.rect.height < FINGER) found.push(`${cell.id} is too low for a finger`);
      const name = textWidth(cell.name, TYPE.name, true);
      if (name > cell.rect.width - 20) found.push(`${cell.id} has no room for its name`);
    }
    for (const [a, b] of pairs(cells)) {
      if (overlap(a.rect, b.rect)) found.push(`${a.id} lies on ${b.id}`);
    }
  }
  for (const [a, b] of pairs(boxes)) {
    if (overlap(a.rect, b.rect)) found.push(`${a.item} lies on ${b.item}`);
  }
  return found;
}

const bodyOf = ({ step, x, y }: PlacedSymbol): Rect => {
  const { width, up, down } = SYMBOL_SIZE[step.symbol];
  return { x: x - width / 2, y: y - up, width, height: up + down };
};

const labelsOf = ({ label, labelAt, x }: PlacedSymbol, size: number): Rect[] =>
  label.map((line, i) => {
    const width = textWidth(line, size);
    return { x: x - width / 2, y: labelAt + i * 12.5 - 9, width, height: 11 };
  });

function insideBreaches(
  { item, rect, cells, wires, symbols, linkages }: Box,
  size: number,
): string[] {
  const found: string[] = [];
  const texts = symbols.flatMap((symbol) => labelsOf(symbol, size));
  for (const { from, to } of linkages) {
    const line = thin(segment('linkage', from, to));
    if (texts.some((text) => overlap(line, text)))
      found.push(`a linkage runs through a label in ${item}`);
  }
  const pieces = wires
    .map(({ node, from, to }) => segment(node, from, to))
    .filter((p) => p.x1 !== p.x2 || p.y1 !== p.y2);
  for (const piece of pieces) {
    if (!within(thin(piece), rect)) found.push(`${piece.of} leaves ${item}`);
    for (const cell of cells) {
      const deep = { ...cell.rect, x: cell.rect.x + 1, width: cell.rect.width - 2 };
      if (overlap(thin(piece), deep)) found.push(`${piece.of} runs over ${cell.id}`);
    }
    for (const symbol of symbols) {
      if (overlap(thin(piece), bodyOf(symbol), 1))
        found.push(`${piece.of} runs over ${symbol.step.id}`);
    }
  }
  for (const [a, b] of pairs(pieces)) {
    if (a.of === b.of) continue;
    if (runsBeside(a, b, 4)) found.push(`${a.of} runs on ${b.of}`);
    if (looksJoined(a, b, JOIN_CLEAR)) found.push(`${a.of} looks joined to ${b.of}`);
  }
  for (const [a, b] of pairs(symbols)) {
    const ids = `${a.step.id} and ${b.step.id}`;
    if (overlap(bodyOf(a), bodyOf(b))) found.push(`${ids} overlap`);
    const labels = [
      ...labelsOf(a, size).map((r) => [r, b] as const),
      ...labelsOf(b, size).map((r) => [r, a] as const),
    ];
    for (const [label, other] of labels) {
      if (overlap(label, bodyOf(other))) found.push(`a label of ${ids} lies on a symbol`);
    }
    for (const one of labelsOf(a, size)) {
      if (labelsOf(b, size).some((other) => overlap(one, other)))
        found.push(`labels of ${ids} overlap`);
    }
  }
  for (const symbol of symbols) {
    for (const label of labelsOf(symbol, size)) {
      if (!within(label, rect)) found.push(`the label of ${symbol.step.id} leaves ${item}`);
      if (pieces.some((piece) => overlap(thin(piece), label, 1))) {
        found.push(`a line runs through the label of ${symbol.step.id}`);
      }
    }
  }
  return found;
}

/** Lines of a box's heading, and names and labels of its terminals, as rectangles. */
function wordsIn({ heading, cells }: Box, size: number): (Rect & { readonly text: string })[] {
  const words = heading.map(({ text, kind, x, y }) => {
    const bold = kind === 'reference' || kind === 'title';
    return { text, ...lineOf(x, y, textWidth(text, kind === 'label' ? size : TYPE[kind], bold)) };
  });
  const printed = cells.flatMap(({ name, rect, nameFrom, nameAt, label, labelAt, earth }) => {
    const mark = terminalMark(name);
    const room = earth === 'none' ? 0 : EARTH;
    const width = textWidth(mark, TYPE.name, true) + room;
    return [
      { text: mark, ...lineOf(rect.x + nameFrom, rect.y + nameAt, width) },
      ...label.map((text, i) => ({
        text,
        ...lineOf(rect.x + labelAt.x, rect.y + labelAt.y + i * 12.5, textWidth(text, size)),
      })),
    ];
  });
  return [...words, ...printed];
}

/** Room of the earth mark after a terminal's name, px. */
const EARTH = 15;

/** A line of text from its baseline: letters reach 9 px above it and 2 below. */
const lineOf = (x: number, y: number, width: number): Rect => ({ x, y: y - 9, width, height: 11 });

function wordBreaches(box: Box, size: number): string[] {
  const { item, rect, cells } = box;
  const found: string[] = [];
  const printed = wordsIn(box, size);
  for (const one of printed) {
    if (!within(one, rect)) found.push(`“${one.text}” leaves ${item}`);
    for (const cell of cells) {
      const apart = one.y + one.height <= cell.rect.y || one.y >= cell.rect.y + cell.rect.height;
      if (!apart && overlap(one, cell.rect) && !within(one, cell.rect))
        found.push(`“${one.text}” crosses the edge of ${cell.id}`);
      for (const side of ['left', 'right'] as const) {
        const x = side === 'left' ? cell.rect.x + 8 : cell.rect.x + cell.rect.width - 8;
        for (const y of cell.slots[side]) {
          const screw = { x: x - 3.6, y: y - 3.6, width: 7.2, height: 7.2 };
          if (overlap(one, screw)) found.push(`“${one.text}” lies on a screw of ${cell.id}`);
        }
      }
    }
  }
  for (const [a, b] of pairs(printed)) {
    if (overlap(a, b)) found.push(`“${a.text}” lies on “${b.text}” in ${item}`);
  }
  return found;
}

function channelBreaches({ boxes, conductors, tags, codes, width, spacing }: Sheet): string[] {
  const found: string[] = [];
  const pieces = conductors.flatMap(segmentsOf);
  for (const [a, b] of pairs(pieces)) {
    if (a.of === b.of) continue;
    if (runsBeside(a, b, spacing.track - 0.01)) found.push(`${a.of} runs on ${b.of}`);
    if (looksJoined(a, b, JOIN_CLEAR)) found.push(`${a.of} looks joined to ${b.of}`);
  }
  for (const { lead, points } of conductors) {
    const upright = points[1]!.x;
    if (upright < boxes[0]!.rect.x + boxes[0]!.rect.width + codes - 0.01)
      found.push(`${lead.id} runs through the codes`);
    if (upright > width - 2) found.push(`${lead.id} leaves the sheet`);
  }
  for (const tag of tags) {
    if (tag.x + tag.width > width) found.push(`the tag of ${tag.cable} leaves the sheet`);
    if (boxes.some(({ rect }) => overlap(tag, rect)))
      found.push(`the tag of ${tag.cable} lies on a box`);
    for (const piece of pieces) {
      const passes = piece.y1 < tag.y && piece.y2 > tag.y + tag.height;
      const own = passes && piece.of.startsWith(`${tag.cable}.`);
      if (!own && !overlap(thin(piece), tag)) continue;
      if (!piece.of.startsWith(`${tag.cable}.`))
        found.push(`the tag of ${tag.cable} hides ${piece.of}`);
      if (!covers(tag, piece)) found.push(`the tag of ${tag.cable} covers half of ${piece.of}`);
    }
  }
  for (const [a, b] of pairs(tags)) {
    if (overlap(a, b)) found.push(`the tags of ${a.cable} and ${b.cable} overlap`);
  }
  return found;
}

const covers = (tag: Rect, { x1, x2 }: Segment): boolean =>
  x1 > tag.x + 1 && x2 < tag.x + tag.width - 1;
