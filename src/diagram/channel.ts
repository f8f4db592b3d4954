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

/**
 * Places bands in the channel. Each in its turn takes the innermost place that is free. The
 * turns are at first from the shortest band to the longest; two of them are exchanged, or a
 * band's runs put in another order, while that makes the channel narrower or its crossings
 * fewer.
 * @param choices for each band the orders of its runs, the best by itself first.
 */
export function fillChannel(choices: readonly (readonly Band[])[], spacing: Spacing): Channel {
  const length = ([band]: readonly Band[]) => band!.span.bottom - band!.span.top;
  const sorted = choices.toSorted((a, b) => length(a) - length(b));
  const filling = new Filling(sorted, spacing);
  for (let round = 0; round < MOST_ROUNDS; round++) if (!filling.improve()) break;
  return filling.channel();
}

/** Bands in their turns, by place in the list of all orders of all bands. */
class Filling {
  readonly #bands: readonly Band[];
  /** By place: the places of all orders of the same band. */
  readonly #orders: readonly (readonly number[])[];
  readonly #pairs: Pairs;
  readonly #spacing: Spacing;
  /** By turn, best so far: places of bands, and their x. */
  #best: readonly number[];
  #bestXs: readonly number[] = [];
  #bestCost = Number.POSITIVE_INFINITY;
  #bestWidth = 0;
  #bestCrossings = 0;
  /** The same of what is tried. */
  readonly #tried: number[];
  readonly #xs: number[];

  constructor(choices: readonly (readonly Band[])[], spacing: Spacing) {
    this.#bands = choices.flat();
    this.#spacing = spacing;
    this.#pairs = new Pairs(this.#bands, spacing);
    let at = 0;
    const orders = choices.map((own) => own.map(() => at++));
    this.#orders = orders.flatMap((own) => own.map(() => own));
    this.#best = orders.map(([first]) => first!);
    this.#tried = [...this.#best];
    this.#xs = this.#best.map(() => 0);
    this.#isBetter(0);
  }

  /** Tries every other order of a band and every exchange of two turns; whether any was better. */
  improve(): boolean {
    const tried = this.#tried;
    let better = false;
    for (let i = 0; i < tried.length; i++) {
      this.#goBack();
      for (const order of this.#orders[tried[i]!]!) {
        tried[i] = order;
        if (this.#isBetter(i)) better = true;
        tried[i] = this.#best[i]!;
      }
      for (let j = i + 1; j < tried.length; j++) {
        tried[i] = this.#best[j]!;
        tried[j] = this.#best[i]!;
        if (this.#isBetter(i)) better = true;
        tried[i] = this.#best[i]!;
        tried[j] = this.#best[j]!;
      }
    }
    return better;
  }

  channel(): Channel {
    const placed = this.#best.map((at, turn) => ({
      band: this.#bands[at]!,
      x: this.#bestXs[turn]!,
    }));
    return { placed, width: this.#bestWidth, crossings: this.#bestCrossings };
  }

  #goBack(): void {
    for (const [turn, x] of this.#bestXs.entries()) this.#xs[turn] = x;
  }

  /**
   * Places what is tried, and keeps it where it is better than the best so far. It is given up as
   * soon as it cannot be.
   * @param from the first turn that is another than in the best.
   */
  #isBetter(from: number): boolean {
    const tried = this.#tried;
    const xs = this.#xs;
    let width = 0;
    let length = 0;
    let base = 0;
    for (let turn = 0; turn < tried.length; turn++) {
      if (turn >= from) xs[turn] = this.#innermost(turn);
      const one = { band: this.#bands[tried[turn]!]!, x: xs[turn]! };
      width = Math.max(width, this.#edgeOf(one));
      length += one.x * one.band.runs.length;
      base = WIDTH_COST * width + LENGTH_COST * length;
      if (base >= this.#bestCost) return false;
    }
    let crossed = 0;
    let cost = base;
    for (let turn = 0; turn < tried.length; turn++) {
      crossed += this.#pairs.ownCrossings(tried[turn]!);
      for (let other = 0; other < turn; other++)
        crossed += this.#pairs.crossings(tried[other]!, tried[turn]!, xs[turn]! - xs[other]!);
      cost = base + WIDTH_COST * this.#spacing.crossing * crossed;
      if (cost >= this.#bestCost) return false;
    }
    this.#best = [...tried];
    this.#bestXs = [...xs];
    this.#bestCost = cost;
    this.#bestWidth = width;
    this.#bestCrossings = crossed;
    return true;
  }

  /** Least whole x at which the band of a turn touches none of the turns before. */
  #innermost(turn: number): number {
    const own = this.#tried[turn]!;
    let x = 0;
    for (let other = 0; other < turn; ) {
      const at = this.#xs[other]!;
      const before = x;
      for (const [from, to] of this.#pairs.touching(this.#tried[other]!, own))
        if (at + from < x && x < at + to) x = Math.ceil(at + to);
      // Moved out, it may touch one that it was clear of.
      other = x === before ? other + 1 : 0;
    }
    return x;
  }

  /** Outermost x of a band's runs and tags. */
  #edgeOf(one: PlacedBand): number {
    const { track } = this.#spacing;
    const { runs, tags, tagWidth } = one.band;
    return Math.max(
      one.x + (runs.length - 1) * track + TICK.reach,
      tags.length > 0 ? tagMiddle(one, this.#spacing) + tagWidth / 2 : 0,
    );
  }
}

/** What two bands of a list are to each other, worked out once: by place in the list. */
class Pairs {
  readonly #bands: readonly Band[];
  readonly #spacing: Spacing;
  readonly #touching: (ReturnType<typeof touching> | undefined)[] = [];
  readonly #crossings: (Map<number, number> | undefined)[] = [];
  readonly #own: (number | undefined)[] = [];

  constructor(bands: readonly Band[], spacing: Spacing) {
    this.#bands = bands;
    this.#spacing = spacing;
  }

  /** Distances from the first to the second at which they touch; see {@link touching}. */
  touching(a: number, b: number): ReturnType<typeof touching> {
    const pair = a * this.#bands.length + b;
    this.#touching[pair] ??= touching(this.#bands[a]!, this.#bands[b]!, this.#spacing);
    return this.#touching[pair];
  }

  /** How often two cross, the second so far outward of the first. */
  crossings(a: number, b: number, outward: number): number {
    const pair = a * this.#bands.length + b;
    this.#crossings[pair] ??= new Map();
    const known = this.#crossings[pair].get(outward);
    if (known !== undefined) return known;
    const count = this.#count(a, b, outward) + this.#count(b, a, -outward);
    this.#crossings[pair].set(outward, count);
    return count;
  }

  /** How often the runs of one cross one another. */
  ownCrossings(a: number): number {
    this.#own[a] ??= this.#count(a, a, 0);
    return this.#own[a];
  }

  /** How often stubs of the second's runs cross runs of the first. */
  #count(a: number, b: number, outward: number): number {
    const { track } = this.#spacing;
    let count = 0;
    for (const [i, passed] of this.#bands[a]!.runs.entries())
      for (const [j, run] of this.#bands[b]!.runs.entries())
        count += crossings(run, passed.span, outward + (j - i) * track);
    return count;
  }
}
