import type { Network } from '../../circuit/index.ts';
import { COLOUR_CODES } from '../../published/index.ts';
import type { CoreEnd } from '../rewire.ts';
import { itemWords, pointMark } from '../spoken.ts';

/** A terminal as it is said: `terminal 3 at X1`; a point inside as `fuse carrier in Q1`. */
export const spoken = (point: string): string =>
  point.includes('#') ? point.split('#').reverse().join(' in ') : pointMark(point);

/** A core as it is said: `black core of W4`. */
export const coreText = ({ cable, colour }: Pick<CoreEnd, 'cable' | 'colour'>): string =>
  `${COLOUR_CODES[colour]} core of ${cable}`;
/** `A`, `A and B`, `A, B and C`. */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** A contact or fuse as readers call it: `overflow switch of M1`. */
export function partText(network: Network, id: string): string {
  const at = network.branches[network.branchIndex.get(id) ?? -1];
  const branch = at?.kind === 'faulty' ? at.was : at;
  return branch?.kind === 'element'
    ? `${branch.element.name ?? branch.name} of ${branch.item}`
    : id.replace('/', ' ');
}

/** An item as it is said: `condensate pump M1`. */
export const itemText = (network: Network, item: string): string =>
  network.items.has(item) ? itemWords(network, item) : item;
