import type { Device } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { COLOUR_CODES } from '../../published/index.ts';
import { type CoreEnd, itemOf, nameOf } from '../../wiring/index.ts';

const BY_FAMILY: Readonly<Partial<Record<Device['family'], string>>> = {
  supply: 'consumer unit',
  isolation: 'fused spur',
  boiler: 'boiler',
  receiver: 'receiver',
};

/** An item in words with its reference: `boiler E1`, `room stat B1`. */
export function itemWords(network: Network, reference: string): string {
  const { device, title } = network.items.get(reference)!;
  const short = title.split(',')[0]!.replace(/\bthermostat\b/i, 'stat');
  const words = BY_FAMILY[device.family] ?? short.charAt(0).toLowerCase() + short.slice(1);
  return `${words} ${reference}`;
}

/** A terminal's own name in words: `SL`, and `way 3` of a numbered one. */
export const wayWords = (point: string): string =>
  /^\d+$/.test(nameOf(point)) ? `way ${nameOf(point)}` : nameOf(point);

/** A terminal in words: `SL at the boiler E1`. */
export const pointWords = (network: Network, point: string): string =>
  `${wayWords(point)} at the ${itemWords(network, itemOf(point))}`;

/** A core in words: `brown core of W3`. */
export const coreWords = ({ cable, colour }: Pick<CoreEnd, 'cable' | 'colour'>): string =>
  `${COLOUR_CODES[colour]} core of ${cable}`;

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
