import {
  type Conductor,
  codeOf,
  type Rect,
  type Sheet,
  textWidth,
} from '../../src/diagram/index.ts';
import {
  looksJoined,
  overlap,
  runsBeside,
  type Segment,
  segment,
  thin,
  within,
} from './geometry.ts';

/** The straight pieces of a conductor, by its id. */
export const segmentsOf = ({ lead, points }: Conductor): Segment[] =>
  points.slice(1).map((to, i) => segment(lead.id, points[i]!, to));

function* pairs<T>(values: readonly T[]): Generator<readonly [T, T]> {
  for (const [i, a] of values.entries()) for (const b of values.slice(i + 1)) yield [a, b];
}

/** The plates of the codes at a conductor's ends: letters reach 5.5 px above its line and below. */
function codesOf({ lead, points, exits }: Conductor, sheet: Sheet): (Rect & { of: string })[] {
  const { cableAtEnds, letters } = sheet.spacing;
  const width = textWidth(codeOf(lead, cableAtEnds), letters.code, true);
  const from = lead.sleeve ? 10.5 : 4;
  return exits.map(({ x, side }, end) => {
    const { y } = points.at(end === 0 ? 0 : -1)!;
    const left = side === 'right' ? x + from : x - from - width;
    return { of: lead.id, x: left, y: y - 5, width, height: 10 };
  });
}

/** Codes that lie on one another, on a box, or on what is not their own. */
export function codeBreaches(sheet: Sheet): string[] {
  const found: string[] = [];
  const codes = sheet.conductors.flatMap((conductor) => codesOf(conductor, sheet));
  const pieces = sheet.conductors.flatMap(segmentsOf);
  for (const code of codes) {
    for (const { item, rect } of sheet.boxes) {
      if (overlap(code, rect)) found.push(`a code of ${code.of} lies on ${item}`);
    }
    for (const piece of pieces) {
      if (piece.of !== code.of && overlap(thin(piece), code))
        found.push(`${piece.of} runs through a code of ${code.of}`);
    }
  }
  for (const [a, b] of pairs(codes)) {
    if (overlap(a, b)) found.push(`codes of ${a.of} and ${b.of} overlap`);
  }
  return found;
}

/** Conductors that do not end at the screws of their own two terminals. */
export function endBreaches({ boxes, conductors }: Sheet): string[] {
  const cells = boxes.flatMap((box) => box.cells.map((cell) => ({ cell, box })));
  return conductors.flatMap(({ lead, points, exits }) => {
    if (lead.spare) return [];
    return exits.flatMap(({ x, side }, end) => {
      const { x: startsAt, y } = points.at(end === 0 ? 0 : -1)!;
      const own = cells.find(({ cell }) => cell.id === lead.ends[end]);
      const edge = own && own.box.rect.x + (side === 'right' ? own.box.rect.width : 0);
      const ends = own?.cell.slots[side].includes(y) && edge === x && startsAt === x;
      return ends ? [] : [`${lead.id} does not end at ${lead.ends[end]}`];
    });
  });
}

const JOIN_CLEAR = 2;

/** What must hold of conductors in two channels between three columns. */
export function acrossBreaches({ boxes, conductors, width, height, spacing }: Sheet): string[] {
  const found: string[] = [];
  const page = { x: 0, y: 0, width, height };
  const pieces = conductors.flatMap(segmentsOf);
  for (const piece of pieces) {
    if (!within(thin(piece), page)) found.push(`${piece.of} leaves the sheet`);
    for (const { item, rect } of boxes) {
      if (overlap(thin(piece), rect, 1)) found.push(`${piece.of} runs over ${item}`);
    }
  }
  for (const [a, b] of pairs(pieces)) {
    if (a.of === b.of) continue;
    if (runsBeside(a, b, Math.min(spacing.track, spacing.slot / 2) - 0.01))
      found.push(`${a.of} runs on ${b.of}`);
    if (looksJoined(a, b, JOIN_CLEAR)) found.push(`${a.of} looks joined to ${b.of}`);
  }
  return found;
}

/** How often two conductors cross. */
export function crossingsIn({ conductors }: Sheet): number {
  let count = 0;
  for (const [a, b] of pairs(conductors.flatMap(segmentsOf))) {
    if (a.of === b.of) continue;
    const [level, upright] = a.y1 === a.y2 ? [a, b] : [b, a];
    const isLevel = level.y1 === level.y2 && upright.x1 === upright.x2;
    const within = upright.x1 > level.x1 && upright.x1 < level.x2;
    if (isLevel && within && level.y1 > upright.y1 && level.y1 < upright.y2) count++;
  }
  return count;
}
