import { type Band, collide, crosses, type PlacedBand, tagMiddle } from './bands.ts';
import { END_CLEARANCE, type Spacing } from './spacing.ts';

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

/**
 * Places bands in the channel. Each in its turn takes the innermost place that is free;
 * the turns, at first from the shortest band to the longest, are exchanged two by two while
 * that makes the channel narrower or its crossings fewer.
 */
export function fillChannel(bands: readonly Band[], spacing: Spacing): Channel {
  const length = ({ span }: Band) => span.bottom - span.top;
  let turns = [...bands].sort((a, b) => length(a) - length(b));
  let best = place(turns, spacing);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let better = false;
    for (let i = 0; i < turns.length; i++) {
      for (let j = i + 1; j < turns.length; j++) {
        const tried = [...turns];
        [tried[i], tried[j]] = [tried[j]!, tried[i]!];
        const channel = place(tried, spacing);
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

function place(turns: readonly Band[], spacing: Spacing): Channel {
  const placed: PlacedBand[] = [];
  for (const band of turns) {
    let step = 0;
    let candidate: PlacedBand = { band, x: 0 };
    while (placed.some((other) => collide(candidate, other, spacing, END_CLEARANCE))) {
      step++;
      candidate = { band, x: step * spacing.grid };
    }
    placed.push(candidate);
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
    band.runs.map((run, i) => ({ ...run, x: x + i * track })),
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
