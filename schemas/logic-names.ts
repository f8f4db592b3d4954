/**
 * When something is so, as a structured boolean, read inside one device:
 * a condition by name; `energised` / `held` element names; `blown` a fuse or breaker that went; `position` names;
 * `all`, `any` and `not` of these.
 */
export type LogicRule =
  | string
  | boolean
  | { energised: string }
  | { held: string }
  | { blown: string }
  | { position: string | string[] }
  | { not: LogicRule }
  | { all: LogicRule[] }
  | { any: LogicRule[] };

/** The names a rule mentions, by what they name. */
export interface LogicNames {
  conditions: string[];
  elements: string[];
  positions: string[];
}

/** Collects every name in a rule, so that a checker can ask whether each is declared. */
export function namesIn(logic: LogicRule, into: LogicNames = empty()): LogicNames {
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
