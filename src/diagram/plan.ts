import type { Item } from '../circuit/index.ts';
import { cheapest, permutations } from './arrange.ts';
import { cellNeed } from './cells.ts';
import { fillGaps, type Gaps, gapNeed } from './gaps.ts';
import {
  armsAt,
  type Ladder,
  ladderOf,
  presentIn,
  type Row,
  reachOf,
  uprightsOf,
  waysToHouse,
} from './ladder.ts';
import type { Spacing } from './spacing.ts';

/** A box's inside, laid out but for its widths. */
export interface Plan {
  readonly ladder: Ladder;
  /** Uprights beside the terminals and below them, from the left. */
  readonly beside: readonly string[];
  readonly below: readonly string[];
  /** Gap i lies right of upright i; the last one beside the terminals ends at the strip. */
  readonly upper: Gaps;
  readonly lower: Gaps;
  /** Least width of the box, px. */
  readonly need: number;
}

/** Uprights above which not every order is tried. */
const MOST_ORDERED = 5;
const CROSSING_COST = 30;
const ROW_COST = 12;
const WIDTH_COST = 5;
const LINK_COST = 60;

/**
 * Lays an item's elements out as a ladder: as narrow as the drawing wants it, with few
 * crossings and few rows.
 */
export function planInside(item: Item, spacing: Spacing): Plan {
  const plans = function* () {
    for (const homes of waysToHouse(item)) {
      const uprights = uprightsOf(homes);
      const orders = uprights.length <= MOST_ORDERED ? permutations(uprights) : [uprights];
      for (const order of orders) yield planOf(item, ladderOf(item, homes, order), spacing);
    }
  };
  return cheapest(plans(), (plan) => costOf(plan, spacing))!;
}

function planOf(item: Item, ladder: Ladder, { pad, letters }: Spacing): Plan {
  const beside = presentIn(ladder.upper, ladder.uprights);
  const below = presentIn(ladder.lower, ladder.uprights);
  const upper = fillGaps(ladder.upper, beside, beside.length, letters.label);
  const lower = fillGaps(ladder.lower, below, Math.max(0, below.length - 1), letters.label);
  const width = ({ gaps }: Gaps) => gaps.reduce((sum, gap) => sum + gapNeed(gap), pad);
  const strip = cellNeed(item) + (beside.length === 0 ? 0 : width(upper));
  return { ladder, beside, below, upper, lower, need: Math.max(strip, width(lower) + pad) };
}

function costOf({ ladder, need, upper }: Plan, { box }: Spacing): number {
  const { uprights } = ladder;
  const rows = [...ladder.upper, ...ladder.lower];
  const spans = uprights.map((name) => {
    const at = rows.flatMap((row, i) => (armsAt(row, name) > 0 ? [i] : []));
    return [Math.min(...at), Math.max(...at)] as const;
  });
  let cost = WIDTH_COST * Math.max(0, need - box.aim) + ROW_COST * ladder.lower.length;
  cost += upper.gaps.reduce((sum, gap) => sum + gapNeed(gap), 0) / 10;
  if (partsLinked(ladder)) cost += LINK_COST;
  for (const [i, row] of rows.entries()) {
    const [left, right] = reachOf(row, uprights);
    cost += right - left;
    for (let u = left + 1; u < right; u++) {
      if (spans[u]![0] < i && i < spans[u]![1]) cost += CROSSING_COST;
    }
  }
  return cost;
}

/** Whether contacts that move together stand partly beside the terminals, partly below. */
function partsLinked({ upper, lower }: Ladder): boolean {
  const keys = (rows: readonly Row[]) =>
    rows.flatMap(({ rung }) => rung?.steps.flatMap(({ movesWith }) => movesWith ?? []) ?? []);
  const below = new Set(keys(lower));
  return keys(upper).some((key) => below.has(key));
}
