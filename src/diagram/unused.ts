import type { Item } from '../circuit/index.ts';
import { isBare } from './cells.ts';
import type { Plan } from './plan.ts';

/**
 * The plan of a bare terminal box without rows for ways that nothing is joined to; of any
 * other item as it is.
 * @param joined node ids in which a conductor ends.
 */
export function foldUnused(item: Item, plan: Plan, joined: ReadonlySet<string>): Plan {
  if (!isBare(item)) return plan;
  const upper = plan.ladder.upper.filter(({ terminal }) =>
    joined.has(`${item.reference}.${terminal}`),
  );
  return { ...plan, ladder: { ...plan.ladder, upper } };
}

/** Names of an item's terminals that have no row of their own. */
export function foldedIn(item: Item, { ladder }: Plan): string[] {
  const drawn = new Set(ladder.upper.map(({ terminal }) => terminal));
  return Object.keys(item.device.terminals).filter((name) => !drawn.has(name));
}
