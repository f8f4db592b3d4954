import { cheapest, permutations } from './arrange.ts';
import { meets, type Span, spanOf } from './geometry.ts';
import type { Lead } from './leads.ts';
import { type Spacing, TAG, TYPE } from './spacing.ts';
import { textWidth } from './text.ts';

/** A lead with the heights of its ends. */
export interface Run {
  readonly lead: Lead;
  readonly at: readonly [number, number];
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
const MOST_ORDERED = 6;

/** Groups leads into bands, each ordered so that its own runs cross least. */
export function bandsOf(
  leads: readonly Lead[],
  heightOf: (lead: Lead, end: 0 | 1) => number,
  tagsOf: (items: readonly [string, string]) => readonly number[],
): Band[] {
  const groups = new Map<string, Run[]>();
  for (const lead of leads) {
    const key = lead.cable === undefined ? lead.id : `${lead.cable} ${lead.items.join(' ')}`;
    const at = [heightOf(lead, 0), heightOf(lead, 1)] as const;
    groups.set(key, [...(groups.get(key) ?? []), { lead, at, span: spanOf(...at) }]);
  }
  return [...groups.values()].map((group): Band => {
    const runs = leastCrossing(group);
    const { cable, items } = runs[0]!.lead;
    const spans = runs.map(({ span }) => span);
    return {
      runs,
      ...(cable === undefined ? {} : { cable }),
      tags: cable === undefined ? [] : tagsOf(items),
      tagWidth: cable === undefined ? 0 : textWidth(cable, TYPE.code, true) + 2 * TAG.side,
      span: {
        top: Math.min(...spans.map(({ top }) => top)),
        bottom: Math.max(...spans.map(({ bottom }) => bottom)),
      },
    };
  });
}

/** Whether the stub at a height, on its way to an outer track, crosses an inner run. */
export const crosses = (stub: number, inner: Span): boolean =>
  inner.top < stub && stub < inner.bottom;

function leastCrossing(runs: readonly Run[]): readonly Run[] {
  const reach = (run: Run) => run.span.bottom - run.span.top;
  if (runs.length > MOST_ORDERED) return [...runs].sort((a, b) => reach(a) - reach(b));
  return cheapest(permutations(runs), (order) => {
    let cost = 0;
    for (const [i, inner] of order.entries()) {
      for (const outer of order.slice(i + 1)) {
        cost += outer.at.filter((y) => crosses(y, inner.span)).length;
      }
    }
    return cost;
  })!;
}

/** A band with the x of its innermost run, from the channel's left edge. */
export interface PlacedBand {
  readonly band: Band;
  readonly x: number;
}

export const tagMiddle = ({ band, x }: PlacedBand, { track }: Spacing): number =>
  x + ((band.runs.length - 1) * track) / 2;

export const tagSpan = (y: number): Span => spanOf(y - TAG.height / 2, y + TAG.height / 2);

/** Whether two bands would touch: run on run, run under a tag, tag on tag. */
export function collide(
  a: PlacedBand,
  b: PlacedBand,
  spacing: Spacing,
  endClearance: number,
): boolean {
  if (!meets(a.band.span, b.band.span, TAG.height)) return false;
  for (const [i, one] of a.band.runs.entries()) {
    const x = a.x + i * spacing.track;
    for (const [j, other] of b.band.runs.entries()) {
      const apart = Math.abs(x - (b.x + j * spacing.track));
      if (apart < spacing.apart && meets(one.span, other.span, endClearance)) return true;
    }
  }
  return tagHits(a, b, spacing) || tagHits(b, a, spacing);
}

/** Room between a tag and what is not its own, px. */
const TAG_CLEAR = 3;

function tagHits(a: PlacedBand, b: PlacedBand, spacing: Spacing): boolean {
  const middle = tagMiddle(a, spacing);
  return a.band.tags.some((y) => {
    const span = tagSpan(y);
    const onRun = b.band.runs.some(
      (run, j) =>
        Math.abs(b.x + j * spacing.track - middle) < a.band.tagWidth / 2 + TAG_CLEAR &&
        meets(run.span, span, TAG_CLEAR),
    );
    const onTag = b.band.tags.some(
      (other) =>
        meets(tagSpan(other), span, TAG_CLEAR) &&
        Math.abs(tagMiddle(b, spacing) - middle) <
          (a.band.tagWidth + b.band.tagWidth) / 2 + TAG_CLEAR,
    );
    return onRun || onTag;
  });
}
