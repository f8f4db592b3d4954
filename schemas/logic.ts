import { z } from 'zod';
import { MemberName } from './names.ts';

/**
 * When something is so, as a structured boolean, read inside one device:
 * a condition by name; `energised` / `held` element names; `blown` a fuse or breaker that went; `position` names;
 * `all`, `any` and `not` of these.
 */
export type Logic =
  | string
  | boolean
  | { energised: string }
  | { held: string }
  | { blown: string }
  | { position: string | string[] }
  | { not: Logic }
  | { all: Logic[] }
  | { any: Logic[] };

const rule =
  'a rule is true, false, a condition name, or exactly one of energised, held, blown, position, not, all, any';

/** Schema of a rule; see {@link Logic}. */
export const Logic: z.ZodType<Logic> = z.lazy(() =>
  z.union(
    [
      z.boolean(),
      MemberName,
      z.strictObject({ energised: MemberName }),
      z.strictObject({ held: MemberName }),
      z.strictObject({ blown: MemberName }),
      z.strictObject({ position: z.union([MemberName, z.array(MemberName).min(1)]) }),
      z.strictObject({ not: Logic }),
      z.strictObject({ all: z.array(Logic).min(1) }),
      z.strictObject({ any: z.array(Logic).min(1) }),
    ],
    { error: () => rule },
  ),
);

/** The names a rule mentions, by what they name. */
export interface LogicNames {
  conditions: string[];
  elements: string[];
  positions: string[];
}

/** Collects every name in a rule, so that a checker can ask whether each is declared. */
export function namesIn(logic: Logic, into: LogicNames = empty()): LogicNames {
  if (typeof logic === 'boolean') return into;
  if (typeof logic === 'string') into.conditions.push(logic);
  else if ('energised' in logic) into.elements.push(logic.energised);
  else if ('held' in logic) into.elements.push(logic.held);
  else if ('blown' in logic) into.elements.push(logic.blown);
  else if ('position' in logic) into.positions.push(...[logic.position].flat());
  else if ('not' in logic) namesIn(logic.not, into);
  else for (const part of 'all' in logic ? logic.all : logic.any) namesIn(part, into);
  return into;
}

const empty = (): LogicNames => ({ conditions: [], elements: [], positions: [] });
