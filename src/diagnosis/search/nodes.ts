import type { Group } from './groups.ts';

/** A group and where we stand. */
export interface Node {
  readonly group: Group<Node>;
  readonly mode: number;
  readonly opened: number;
  readonly phase: number;
  /** No way from here costs less; weighed. */
  lower: number;
  /** Whether `lower` is the least cost. */
  done: boolean;
  /** Whether the simpler searches have been asked. */
  helped: boolean;
  /** Null until expanded. */
  ways: Way[] | null;
}

/** A way on: to come into one room, and learn all it tells. */
export interface Way {
  readonly room: number;
  readonly cost: number;
  lower: number;
  /** What is left of more than one repair; null until the way was first followed. */
  next: Node[] | null;
}

/** The way of least bound, the first of equals. */
export function leastOf(ways: readonly Way[]): Way {
  let least = ways[0]!;
  for (const way of ways) if (way.lower < least.lower) least = way;
  return least;
}
