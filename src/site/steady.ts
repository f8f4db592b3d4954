import { namesIn, splitReference } from '../../schemas/index.ts';
import type { Network } from '../circuit/index.ts';

/**
 * Whether an outcome, `ITEM.outcome`, is the same in every mode of a sound system, as what a
 * pressure gauge shows: only causes decide it, and no mode is about one. It is looked at once, in whatever mode one stands.
 */
export function isSteady({ items, system }: Network, outcome: string): boolean {
  const [item, name] = splitReference(outcome);
  const { outcomes, conditions } = items.get(item)!.device;
  const named = namesIn(outcomes[name]!.when);
  return (
    named.elements.length === 0 &&
    named.positions.length === 0 &&
    named.conditions.every(
      (condition) =>
        conditions[condition]!.cause !== undefined &&
        Object.values(system.modes).every((mode) => !(`${item}.${condition}` in mode.conditions)),
    )
  );
}
