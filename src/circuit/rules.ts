import type { Logic } from '../../schemas/index.ts';
import type { State } from './state.ts';

/** Whether a rule of an item's device holds in a state. */
export function holds(rule: Logic, item: string, state: State): boolean {
  if (typeof rule === 'boolean') return rule;
  if (typeof rule === 'string') return state.conditions.get(`${item}.${rule}`) ?? false;
  if ('energised' in rule) return state.energised.has(`${item}/${rule.energised}`);
  if ('held' in rule) return state.held.has(`${item}/${rule.held}`);
  if ('blown' in rule) return state.blown.has(`${item}/${rule.blown}`);
  if ('position' in rule) {
    return [rule.position].flat().some((position) => position === state.positions.get(item));
  }
  if ('not' in rule) return !holds(rule.not, item, state);
  if ('all' in rule) return rule.all.every((part) => holds(part, item, state));
  return rule.any.some((part) => holds(part, item, state));
}
