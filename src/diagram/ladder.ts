import type { Item } from '../circuit/index.ts';
import { type Rung, reversed, rungsOf } from './inside.ts';

/** A line across a box: a terminal's own, or one for elements that have no terminal to stand at. */
export interface Row {
  readonly terminal?: string;
  /** What stands on it; its first end is its right one. */
  readonly rung?: Rung;
}

/**
 * A box's inside as a ladder. Nodes that join more than one line are uprights, elements are
 * rungs. Beside the terminals each terminal has a row, on which a rung stands that is all
 * the terminal serves; rungs that have no such home follow below the terminals.
 */
export interface Ladder {
  readonly upper: readonly Row[];
  readonly lower: readonly Row[];
  /** Every upright from the left. */
  readonly uprights: readonly string[];
}

/** Rungs of several elements up to which both of their places are tried. */
const MOST_CHOICES = 3;

/** Homes by terminal, and the rungs without one. */
interface Homes {
  readonly homes: ReadonlyMap<string, Rung>;
  readonly homeless: readonly Rung[];
}

/** Ways to divide an item's elements between its terminals' rows and rows below. */
export function* waysToHouse(item: Item): Generator<Homes> {
  const rungs = rungsOf(item);
  const terminals = Object.keys(item.device.terminals);
  const count = new Map<string, number>();
  for (const end of rungs.flatMap(({ ends }) => ends)) count.set(end, (count.get(end) ?? 0) + 1);
  const alone = (name: string) => terminals.includes(name) && count.get(name) === 1;
  const long = rungs
    .filter(({ ends, steps }) => steps.length > 1 && ends.some(alone))
    .slice(0, MOST_CHOICES);
  for (let choice = 0; choice < 1 << long.length; choice++) {
    const homes = new Map<string, Rung>();
    const homeless: Rung[] = [];
    for (const rung of rungs) {
      const below = (choice >> long.indexOf(rung)) & 1;
      const turned = long.includes(rung) && below ? undefined : homeFirst(rung, terminals, alone);
      if (turned) homes.set(turned.ends[0], turned);
      else homeless.push(rung);
    }
    yield { homes, homeless };
  }
}

/** A rung turned so that its first end is a terminal that serves nothing else; the upper of two. */
function homeFirst(
  rung: Rung,
  terminals: readonly string[],
  alone: (name: string) => boolean,
): Rung | undefined {
  const [a, b] = rung.ends;
  if (alone(a) && alone(b)) {
    return terminals.indexOf(a) < terminals.indexOf(b) ? rung : reversed(rung);
  }
  if (alone(a)) return rung;
  return alone(b) ? reversed(rung) : undefined;
}

/** Nodes that need an upright. */
export const uprightsOf = ({ homes, homeless }: Homes): string[] => {
  const ends = [
    ...[...homes.values()].map(({ ends }) => ends[1]),
    ...homeless.flatMap((r) => r.ends),
  ];
  return [...new Set(ends)];
};

/** The ladder with its uprights in a given order. */
export function ladderOf(
  item: Item,
  { homes, homeless }: Homes,
  uprights: readonly string[],
): Ladder {
  const place = (name: string) => uprights.indexOf(name);
  return {
    uprights,
    upper: Object.keys(item.device.terminals).map((terminal): Row => {
      const rung = homes.get(terminal);
      return rung ? { terminal, rung } : { terminal };
    }),
    lower: homeless.map((rung) => ({
      rung: place(rung.ends[0]) > place(rung.ends[1]) ? rung : reversed(rung),
    })),
  };
}

/** How many pieces of a row's line meet an upright. */
export const armsAt = ({ terminal, rung }: Row, upright: string): number =>
  (terminal === upright ? 1 : 0) + (rung?.ends.filter((end) => end === upright).length ?? 0);

/** Those of the uprights that any of the rows meets. */
export const presentIn = (rows: readonly Row[], uprights: readonly string[]): string[] =>
  uprights.filter((name) => rows.some((row) => armsAt(row, name) > 0));

/**
 * Between which of some uprights a row's line runs, by index; their number stands for the
 * terminal strip. Both ends are the same for a terminal that is joined to nothing.
 */
export function reachOf(
  { terminal, rung }: Row,
  uprights: readonly string[],
): readonly [left: number, right: number] {
  const place = (name: string) => uprights.indexOf(name);
  const strip = uprights.length;
  if (rung) return [place(rung.ends[1]), terminal === undefined ? place(rung.ends[0]) : strip];
  const own = terminal === undefined ? -1 : place(terminal);
  return own === -1 ? [strip, strip] : [own, strip];
}
