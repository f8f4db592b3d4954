import type { Network } from '../../circuit/index.ts';
import type { CoreEnd } from '../rewire.ts';

/** A terminal as it is said: `X1 3`. */
export const spoken = (point: string): string => point.replace('.', ' ');
/** A core as it is said: `core BK of W4`. */
export const coreText = ({ cable, colour }: Pick<CoreEnd, 'cable' | 'colour'>): string =>
  `core ${colour} of ${cable}`;
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
/** `A`, `A and B`, `A, B and C`. */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** A contact or fuse as readers call it: `M1 overflow switch`. */
export function partText(network: Network, id: string): string {
  const at = network.branches[network.branchIndex.get(id) ?? -1];
  const branch = at?.kind === 'faulty' ? at.was : at;
  return branch?.kind === 'element'
    ? `${branch.item} ${branch.element.name ?? branch.name}`
    : id.replace('/', ' ');
}

/** An item as it is said: `M1 condensate pump`. */
export const itemText = (network: Network, item: string): string =>
  `${item} ${network.items.get(item)?.title.toLowerCase() ?? ''}`.trim();
