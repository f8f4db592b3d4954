import { type Band, crossings, type PlacedBand, tagMiddle, touching } from './bands.ts';
import { type Spacing, TICK } from './spacing.ts';

/** Bands placed beside the boxes, and how good the placing is. */
export interface Channel {
  readonly placed: readonly PlacedBand[];
  /** From the channel's left edge to the outermost run or tag, px. */
  readonly width: number;
  readonly crossings: number;
}

const WIDTH_COST = 3;
const LENGTH_COST = 0.01;
/** Rounds of improvement; each tries to exchange every two bands. */
const MOST_ROUNDS = 6;

/** Cost of a placing before its crossings are counted. */
const baseCost = ({ placed, width }: Omit<Channel, 'crossings'>): number =>
  WIDTH_COST * width +
  LENGTH_COST * placed.reduce((sum, { band, x }) => sum + x * band.runs.length, 0);

/** Distances at which two bands touch, worked out once; see {@link touching}. */
type Touches = (a: Band, b: Band) => ReturnType<typeof touching>;

/**
 * Places bands in the channel. Each in its turn takes the innermost place that is free. The
 * turns are at first from the shortest band to the longest; two of them are exchanged, or a
 * band's runs put in another order, while that makes the channel narrower or its crossings
 * fewer.
 * @param choices for each band the orders of its runs, the best by itself first.
 */
export function fillChannel(choices: readonly (readonly Band[])[], spacing: Spacing): Channel {
  const touches = remembered(spacing);
  const length = ([band]: readonly Band[]) => band!.span.bottom - band!.span.top;
  const sorted = [...choices].sort((a, b) => length(a) - length(b));
  let turns = sorted.map((orders) => ({ band: orders[0]!, orders }));
  let best: { channel: Channel; cost: number } | undefined;
  const keep = (tried: typeof turns): boolean => {
    const bands = tried.map(({ band }) => band);
    const made = place(bands, touches, spacing);
    const base = baseCost(made);
    // Counting crossings is the dear part; most tries are too wide to need it.
    if (best && base >= best.cost) return false;
    const crossed = crossingsOf(made.placed, spacing);
    const cost = base + WIDTH_COST * spacing.crossing * crossed;
    if (best && cost >= best.cost) return false;
    turns = tried;
    best = { channel: { ...made, crossings: crossed }, cost };
    return true;
  };
  keep(turns);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let better = false;
    for (let i = 0; i < turns.length; i++) {
      for (const band of turns[i]!.orders) {
        better = keep(turns.with(i, { ...turns[i]!, band })) || better;
      }
      for (let j = i + 1; j < turns.length; j++) {
        better = keep(turns.with(i, turns[j]!).with(j, turns[i]!)) || better;
      }
    }
    if (!better) break;
  }
  return best!.channel;
}

function remembered(spacing: Spacing): Touches {
  const known = new Map<Band, Map<Band, ReturnType<typeof touching>>>();
  return (a, b) => {
    const row = known.get(a) ?? new Map<Band, ReturnType<typeof touching>>();
    known.set(a, row);
    const found = row.get(b) ?? touching(a, b, spacing);
    row.set(b, found);
    return found;
  };
}

function place(
  turns: readonly Band[],
  touches: Touches,
  spacing: Spacing,
): Omit<Channel, 'crossings'> {
  const placed: PlacedBand[] = [];
  for (const band of turns) {
    const taken: (readonly [from: number, to: number])[] = [];
    for (const { band: other, x } of placed)
      for (const [from, to] of touches(other, band)) taken.push([x + from, x + to]);
    taken.sort(([a], [b]) => a - b);
    let x = 0;
    for (const [from, to] of taken) if (from < x && x < to) x = Math.ceil(to);
    placed.push({ band, x });
  }
  const edges = placed.map((one) =>
    Math.max(
      one.x + (one.band.runs.length - 1) * spacing.track + TICK.reach,
      one.band.tags.length > 0 ? tagMiddle(one, spacing) + one.band.tagWidth / 2 : 0,
    ),
  );
  return { placed, width: Math.max(0, ...edges) };
}

function crossingsOf(placed: readonly PlacedBand[], { track }: Spacing): number {
  const runs = placed.flatMap(({ band, x }) =>
    band.runs.map((run, i) => ({ run, x: x + i * track })),
  );
  let count = 0;
  for (const passed of runs) {
    for (const { run, x } of runs) count += crossings(run, passed.run.span, x - passed.x);
  }
  return count;
}
