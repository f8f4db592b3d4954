import type { Device, System } from '../../schemas/index.ts';
import type { Catalogue } from './types.ts';

/** The devices that a composed system holds, by name. */
export const devicesOf = ({ items }: System, { devices }: Catalogue): Record<string, Device> => {
  const used = new Set(Object.values(items).map(({ device }) => device));
  return Object.fromEntries([...devices].filter(([name]) => used.has(name)));
};

/** What is only said of a thing: a word changed there leaves the circuit as it was. */
const SAID: ReadonlySet<string> = new Set([
  ...['title', 'otherwise', 'summary', 'aliases', 'formerly', 'cautions', 'care', 'because'],
  ...['author', 'review', 'checked', 'bring', 'recognise', 'notes', 'why', 'labels', 'sources'],
]);

/**
 * A mark by which a circuit is known again: 16 hexadecimal digits over its items, cables, links,
 * modes and devices, two 32-bit FNV-1a sums beside each other. No seal: it tells a changed part
 * from an unchanged one, and nobody gains by making two alike.
 */
export function circuitMark(
  { items, cables, links, modes }: System,
  devices: Readonly<Record<string, Device>>,
): string {
  const text = JSON.stringify({ items, cables, links, modes, devices }, (key, value) =>
    SAID.has(key) ? undefined : value,
  );
  return [0x811c9dc5, 0x01000193].map((start) => sumOf(text, start)).join('');
}

function sumOf(text: string, start: number): string {
  let sum = start;
  for (let i = 0; i < text.length; i++) {
    sum ^= text.charCodeAt(i);
    sum = Math.imul(sum, 0x01000193);
  }
  return (sum >>> 0).toString(16).padStart(8, '0');
}
