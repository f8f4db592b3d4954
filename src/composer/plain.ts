import { conditionsOf, type Network } from '../circuit/index.ts';
import { itemName, itemWords } from '../wiring/index.ts';

/**
 * A finding in plain words: conditions by their titles and items by what they are, for a reader
 * who has not seen the references of this arrangement yet.
 */
export function plainly(network: Network, message: string): string {
  const conditions = [...conditionsOf(network, {}).keys()].toSorted((a, b) => b.length - a.length);
  const named = new RegExp(`\\b(?:(${conditions.join('|')})(?![a-z])|[A-Z]{1,2}\\d{1,2}\\b)`, 'g');
  return message.replace(named, (found, condition: string | undefined, at: number) => {
    if (condition !== undefined) return conditionWords(network, condition);
    if (!network.items.has(found)) return found;
    const isNamed = message.slice(0, at).endsWith(`${itemName(network, found)} `);
    return isNamed ? found : `the ${itemWords(network, found)}`;
  });
}

/** `“Room asks for heat” at the room stat B1`. */
function conditionWords(network: Network, id: string): string {
  const dot = id.indexOf('.');
  const item = id.slice(0, dot);
  const about = network.items.get(item)!.device.conditions[id.slice(dot + 1)]!;
  return `“${about.title}” at the ${itemWords(network, item)}`;
}

/** The conditions that are not as usual, in part of a sentence; empty where all are. */
export function unusualWords(
  network: Network,
  conditions: Readonly<Record<string, boolean>>,
): string {
  const usual = conditionsOf(network, {});
  return Object.entries(conditions)
    .filter(([id, so]) => usual.get(id) !== so)
    .map(([id, so]) => `${so ? '' : 'not '}${conditionWords(network, id)}`)
    .join(', ');
}
