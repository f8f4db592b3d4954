import type { Device, Logic } from '../../../schemas/index.ts';
import { lowerFirst } from '../../words/index.ts';
import { list } from '../text/words.ts';

/**
 * A device's rule in words: `room asks for heat, and the control board is energised`.
 * Names of elements and conditions are replaced by what the device calls them.
 */
export function ruleWords(rule: Logic, device: Device, nested = false): string {
  if (typeof rule === 'boolean') return rule ? 'always' : 'never';
  if (typeof rule === 'string') return lowerFirst(device.conditions[rule]?.title ?? rule);
  if ('energised' in rule) return `${elementName(device, rule.energised)} is energised`;
  if ('held' in rule) return `${elementName(device, rule.held)} is held in`;
  if ('blown' in rule) return `${elementName(device, rule.blown)} has gone`;
  if ('position' in rule) return `it stands at ${list([rule.position].flat(), 'or')}`;
  if ('not' in rule) return `not (${ruleWords(rule.not, device)})`;
  const [parts, joint] = 'all' in rule ? [rule.all, 'and'] : [rule.any, 'or'];
  if (parts.length === 1) return ruleWords(parts[0]!, device, nested);
  const words = parts.map((part) => ruleWords(part, device, true)).join(`, ${joint} `);
  return nested ? `(${words})` : words;
}

/** What a reader calls an element of a device. */
export function elementName(device: Device, name: string): string {
  return device.elements[name]?.name ?? name;
}
