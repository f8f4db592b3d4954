import { type Band, crosses, type PlacedBand, tagMiddle, touching } from './bands.ts';
import type { Spacing } from './spacing.ts';

/** Bands placed beside the boxes, and how good the placing is. */
export interface Channel {
  readonly placed: readonly PlacedBand[];
  /** From the channel's left edge to the outermost run or tag, px. */
  readonly width: number;
  readonly crossings: number;
}

const CROSSING_COST = 2;
const WIDTH_COST = 3;
const LENGTH_COST = 0.01;
/** Rounds of improvement; each tries to exchange every two bands. */
const MOST_ROUNDS = 6;

const costOf = ({ placed, width, crossings }: Channel): number =>
  WIDTH_COST * width +
  CROSSING_COST * crossings +
  LENGTH_COST * placed.reduce((sum, { band, x }) => sum + x * band.runs.length, 0);

/** For each two bands the distances at which they touch; see {@link touching}. */
type Touches = ReadonlyMap<Band, ReadonlyMap<Band, ReturnType<typeof touching>>>;

/**
 * Places bands in the channel. Each in its turn takes the innermost place that is free;
 * the turns, at first from the shortest band to the longest, are exchanged two by two while
 * that makes the channel narrower or its crossings fewer.
 */
export function fillChannel(bands: readonly Band[], spacing: Spacing): Channel {
  const touches: Touches = new Map(
    bands.map((a) => [a, new Map(bands.map((b) => [b, touching(a, b, spacing)]))]),
  );
  const length = ({ span }: Band) => span.bottom - span.top;
  let turns = [...bands].sort((a, b) => length(a) - length(b));
  let best = place(turns, touches, spacing);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let better = false;
    for (let i = 0; i < turns.length; i++) {
      for (let j = i + 1; j < turns.length; j++) {
        const tried = [...turns];
        [tried[i], tried[j]] = [tried[j]!, tried[i]!];
        const channel = place(tried, touches, spacing);
        if (costOf(channel) >= costOf(best)) continue;
        turns = tried;
        best = channel;
        better = true;
      }
    }
    if (!better) break;
  }
  return best;
}

function place(turns: readonly Band[], touches: Touches, spacing: Spacing): Channel {
  const placed: PlacedBand[] = [];
  for (const band of turns) {
    const taken = placed
      .flatMap(({ band: other, x }) =>
        touches
          .get(other)!
          .get(band)!
          .map(([from, to]) => [x + from, x + to] as const),
      )
      .sort(([a], [b]) => a - b);
    let x = 0;
    for (const [from, to] of taken) if (from < x && x < to) x = Math.ceil(to);
    placed.push({ band, x });
  }
  const edges = placed.map((one) =>
    Math.max(
      one.x + (one.band.runs.length - 1) * spacing.track,
      one.band.tags.length > 0 ? tagMiddle(one, spacing) + one.band.tagWidth / 2 : 0,
    ),
  );
  return { placed, width: Math.max(0, ...edges), crossings: crossingsOf(placed, spacing) };
}

function crossingsOf(placed: readonly PlacedBand[], { track }: Spacing): number {
  const runs = placed.flatMap(({ band, x }) =>
    band.runs.map(({ at, span }, i) => ({ at, span, x: x + i * track })),
  );
  let count = 0;
  for (const inner of runs) {
    for (const outer of runs) {
      if (outer.x <= inner.x) continue;
      for (const y of outer.at) if (crosses(y, inner.span)) count++;
    }
  }
  return count;
}
