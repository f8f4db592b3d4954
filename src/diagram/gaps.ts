import { cheapest } from './arrange.ts';
import type { Step } from './inside.ts';
import { type Row, reachOf } from './ladder.ts';
import { SYMBOL_SIZE } from './symbol-sizes.ts';
import { widestPart, wrap } from './text.ts';

/** Steps that stand under one another. */
export interface Column {
  /** Least width, px. */
  need: number;
  readonly labels: string[];
}

/** The columns to the right of an upright, counted from the right; empty where none is needed. */
export type Gap = Column[];

/** The gaps of a part of a ladder, and in which of them each row's steps stand. */
export interface Gaps {
  readonly gaps: readonly Gap[];
  readonly of: ReadonlyMap<Row, number>;
  /** Size of the labels' letters, px. */
  readonly size: number;
}

/** Width of a gap in which nothing stands, px. */
const BARE = 6;
const STEP_SIDE = 2.5;
const LABEL_SIDE = 1.5;

const stepNeed = ({ symbol, label }: Step, size: number): number =>
  Math.max(SYMBOL_SIZE[symbol].width, widestPart(label, size)) + 2 * STEP_SIDE;

/** Lines in which a label is printed in a column so wide. */
export const labelLines = (label: string, size: number, width: number): string[] =>
  label === '' ? [] : wrap(label, size, width - 2 * LABEL_SIDE);

export const gapNeed = (gap: Gap): number =>
  gap.length === 0 ? BARE : gap.reduce((sum, { need }) => sum + need, 0);

/**
 * Gives each row with a rung a gap within its reach, the widest rungs first, where it makes
 * the whole least wider.
 * @param count gaps there are.
 * @param size of the labels' letters, px.
 */
export function fillGaps(
  rows: readonly Row[],
  uprights: readonly string[],
  count: number,
  size: number,
): Gaps {
  const gaps: Gap[] = Array.from({ length: count }, () => []);
  const of = new Map<Row, number>();
  const need = (row: Row) =>
    row.rung?.steps.reduce((sum, step) => sum + stepNeed(step, size), 0) ?? 0;
  for (const row of rows.filter(({ rung }) => rung).sort((a, b) => need(b) - need(a))) {
    const steps = row.rung!.steps;
    const [left, right] = reachOf(row, uprights);
    const choices = Array.from({ length: right - left }, (_, i) => left + i);
    const growth = (i: number) => gapNeed(withSteps(gaps[i]!, steps, size)) - gapNeed(gaps[i]!);
    const chosen = cheapest(choices, growth) ?? left;
    of.set(row, chosen);
    gaps[chosen] = withSteps(gaps[chosen]!, steps, size);
  }
  return { gaps, of, size };
}

function withSteps(gap: Gap, steps: readonly Step[], size: number): Gap {
  const grown = gap.map(({ need, labels }) => ({ need, labels: [...labels] }));
  for (const [i, step] of steps.entries()) {
    grown[i] ??= { need: 0, labels: [] };
    grown[i].need = Math.max(grown[i].need, stepNeed(step, size));
    grown[i].labels.push(step.label);
  }
  return grown;
}

/**
 * Widths of all columns when the gaps share a room: what is over goes first where it saves
 * most lines of label, then to all columns alike.
 * @returns for each gap the widths of its columns, or its own width where it has none.
 */
export function stretch({ gaps, size }: Gaps, room: number): number[][] {
  const widths = gaps.map((gap) => (gap.length === 0 ? [BARE] : gap.map(({ need }) => need)));
  let over = room - gaps.reduce((sum, gap) => sum + gapNeed(gap), 0);
  const columns = gaps.flatMap((gap, g) => gap.map((column, c) => ({ column, g, c })));
  while (over > 0) {
    const saving = columns
      .map((at) => ({ ...at, ...firstSaving(at.column, size, widths[at.g]![at.c]!, over) }))
      .filter(({ saved }) => saved > 0)
      .sort((a, b) => b.saved / b.extra - a.saved / a.extra)[0];
    if (!saving) break;
    widths[saving.g]![saving.c]! += saving.extra;
    over -= saving.extra;
  }
  if (over <= 0 || gaps.length === 0) return widths;
  if (columns.length === 0) widths[0]![0]! += over;
  for (const { g, c } of columns) widths[g]![c]! += over / columns.length;
  return widths;
}

/** Step in which more width is tried, px. */
const TRIAL = 3;

/** The least widening of a column that saves a line of its labels. */
function firstSaving(
  { labels }: Column,
  size: number,
  width: number,
  most: number,
): { saved: number; extra: number } {
  const lines = (w: number) =>
    labels.reduce((sum, label) => sum + labelLines(label, size, w).length, 0);
  const now = lines(width);
  for (let extra = TRIAL; extra <= most; extra += TRIAL) {
    const saved = now - lines(width + extra);
    if (saved > 0) return { saved, extra };
  }
  return { saved: 0, extra: 1 };
}
