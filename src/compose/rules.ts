import type { Rule } from './types.ts';

/** What holds of conditions: by ITEM.condition, as they are usually where nothing is said. */
export type Holds = (condition: string) => boolean;

/** Whether a rule holds; `supply on` is a condition like another. */
export function isSo(rule: Rule, holds: Holds): boolean {
  if (typeof rule === 'string') return holds(rule);
  if ('not' in rule) return !isSo(rule.not, holds);
  if ('all' in rule) return rule.all.every((one) => isSo(one, holds));
  return rule.any.some((one) => isSo(one, holds));
}

/** Conditions to set, so that a rule holds with everything else as usual; the first way of several. */
export function toSet(rule: Rule): string[] {
  if (typeof rule === 'string') return rule === 'supply on' ? [] : [rule];
  if ('not' in rule) return [];
  if ('all' in rule) return rule.all.flatMap(toSet);
  return toSet(rule.any[0]!);
}
