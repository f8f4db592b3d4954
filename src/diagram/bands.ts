import { permutations } from './arrange.ts';
import { meets, type Side, type Span, spanOf } from './geometry.ts';
import type { Lead } from './leads.ts';
import { END_CLEARANCE, type Spacing, TAG } from './spacing.ts';
import { textWidth } from './text.ts';

/** A lead with the heights of its ends. */
export interface Run {
  readonly lead: Lead;
  readonly at: readonly [number, number];
  /** Sides of the channel that its ends come from. */
  readonly sides: readonly [Side, Side];
  readonly span: Span;
}

/** The runs of one cable between two items, side by side, and its tags. */
export interface Band {
  /** From the boxes outward. */
  readonly runs: readonly Run[];
  readonly cable?: string;
  /** Heights of the tags' middles. */
  readonly tags: readonly number[];
  readonly tagWidth: number;
  readonly span: Span;
}

/** Runs of one cable up to which every order is tried. */
const MOST_ORDERED = 5;
/** Orders of one cable's runs that are kept. */
const MOST_KEPT = 24;

/** Where a lead's end comes into a channel. */
export interface Entry {
  readonly y: number;
  readonly side: Side;
}

/**
 * Groups leads into bands. For each the ways to order its runs are given, those that cross
 * one another least first.
 */
export function bandsOf(
  leads: readonly Lead[],
  entryOf: (lead: Lead, end: 0 | 1) => Entry,
  tagsOf: (items: readonly [string, string]) => readonly number[],
  spacing: Spacing,
): Band[][] {
  const groups = new Map<string, Run[]>();
  for (const lead of leads) {
    const key = lead.cable === undefined ? lead.id : `${lead.cable} ${lead.items.join(' ')}`;
    const [a, b] = [entryOf(lead, 0), entryOf(lead, 1)];
    const at = [a.y, b.y] as const;
    const run = { lead, at, sides: [a.side, b.side] as const, span: spanOf(...at) };
    groups.set(key, [...(groups.get(key) ?? []), run]);
  }
  return [...groups.values()].map((group) => {
    const { cable, items } = group[0]!.lead;
    const spans = group.map(({ span }) => span);
    return ordersOf(group).map((runs) => ({
      runs,
      ...(cable === undefined ? {} : { cable }),
      tags: cable === undefined ? [] : tagsOf(items),
      tagWidth: cable === undefined ? 0 : tagWidth(cable, runs.length, spacing),
      span: {
        top: Math.min(...spans.map(({ top }) => top)),
        bottom: Math.max(...spans.map(({ bottom }) => bottom)),
      },
    }));
  });
}

/** A tag is a ring round the cores, wide enough for the reference too. */
const tagWidth = (cable: string, runs: number, { track, letters }: Spacing): number =>
  Math.max(textWidth(cable, letters.code, true) + 2 * TAG.side, (runs - 1) * track + 2 * TAG.side);

/** How often the stubs of a run cross another that lies this far to its left, or right if negative. */
export function crossings({ at, sides }: Run, other: Span, leftward: number): number {
  let count = 0;
  for (let end = 0; end < at.length; end++) {
    const y = at[end]!;
    if (other.top >= y || y >= other.bottom) continue;
    if (sides[end] === 'left' ? leftward > 0 : leftward < 0) count++;
  }
  return count;
}

function ordersOf(runs: readonly Run[]): (readonly Run[])[] {
  const reach = ({ span }: Run) => span.bottom - span.top;
  if (runs.length > MOST_ORDERED) return [[...runs].sort((a, b) => reach(a) - reach(b))];
  const cost = (order: readonly Run[]) =>
    order.reduce(
      (sum, passed, i) =>
        sum + order.reduce((own, run, j) => own + crossings(run, passed.span, j - i), 0),
      0,
    );
  return [...permutations(runs)]
    .map((order) => ({ order, cost: cost(order) }))
    .sort((a, b) => a.cost - b.cost)
    .slice(0, MOST_KEPT)
    .map(({ order }) => order);
}

/** A band with the x of its innermost run, from the channel's left edge. */
export interface PlacedBand {
  readonly band: Band;
  readonly x: number;
}

export const tagMiddle = ({ band, x }: PlacedBand, { track }: Spacing): number =>
  x + ((band.runs.length - 1) * track) / 2;

export const tagSpan = (y: number): Span => spanOf(y - TAG.height / 2, y + TAG.height / 2);

/** An open interval of distances. */
type Distances = readonly [from: number, to: number];

/** Room between a tag and what is not its own, px. */
const TAG_CLEAR = 2;

/**
 * Distances from one band's innermost run to another's at which the two would touch: run on
 * run, run under a tag, or tag on tag.
 */
export function touching(a: Band, b: Band, { track, apart }: Spacing): Distances[] {
  const touches: Distances[] = [];
  const around = (middle: number, half: number) => touches.push([middle - half, middle + half]);
  for (const [i, one] of a.runs.entries()) {
    for (const [j, other] of b.runs.entries()) {
      if (meets(one.span, other.span, END_CLEARANCE)) around((i - j) * track, apart);
    }
  }
  const middle = ({ runs }: Band) => ((runs.length - 1) * track) / 2;
  const under = (runs: readonly Run[], y: number) =>
    runs.flatMap(({ span }, i) => (meets(span, tagSpan(y), TAG_CLEAR) ? [i * track] : []));
  for (const y of a.tags) {
    for (const x of under(b.runs, y)) around(middle(a) - x, a.tagWidth / 2 + TAG_CLEAR);
    if (b.tags.some((other) => meets(tagSpan(other), tagSpan(y), TAG_CLEAR))) {
      around(middle(a) - middle(b), (a.tagWidth + b.tagWidth) / 2 + TAG_CLEAR);
    }
  }
  for (const y of b.tags) {
    for (const x of under(a.runs, y)) around(x - middle(b), b.tagWidth / 2 + TAG_CLEAR);
  }
  return merged(touches);
}

/** The same distances in as few intervals as hold them, from the least. */
function merged(distances: readonly Distances[]): Distances[] {
  const kept: [from: number, to: number][] = [];
  for (const [from, to] of distances.toSorted(([a], [b]) => a - b)) {
    const last = kept.at(-1);
    if (last && from < last[1]) last[1] = Math.max(last[1], to);
    else kept.push([from, to]);
  }
  return kept;
}
