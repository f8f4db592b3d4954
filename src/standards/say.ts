import type { ConductorBranch, ElementBranch, Network } from '../circuit/index.ts';
import { COLOUR_CODES, type ColourCode } from '../published/index.ts';
import { itemWords } from '../wiring/index.ts';
import type { Subject } from './subject.ts';

/** A conductor as a reader finds it: `the blue core of W3`. */
export const coreName = ({ cable, colour }: Pick<ConductorBranch, 'cable' | 'colour'>): string =>
  `the ${COLOUR_CODES[colour]} core of ${cable}`;

/** A colour by its name: `blue`. */
export const colourName = (code: ColourCode): string => COLOUR_CODES[code];

/** A terminal as a reader finds it: `SL at E1`. */
export { pointMark as pointName } from '../wiring/index.ts';

/** An item with its name: `the room stat B1`. */
export const itemName = (network: Network, item: string): string =>
  network.items.has(item) ? `the ${itemWords(network, item)}` : item;

/** An element with its item: `the stat contact of B1`. */
export const elementName = ({ item, name, element }: ElementBranch): string =>
  `the ${element.name ?? name} of ${item}`;

/** A mode as the entry calls it, in quotation marks. */
export const modeName = (network: Network, mode: string): string =>
  `“${network.system.modes[mode]?.title ?? mode}”`;

/** `a, b and c`. */
export function list(parts: readonly string[], last = 'and'): string {
  if (parts.length < 2) return parts.join('');
  return `${parts.slice(0, -1).join(', ')} ${last} ${parts.at(-1)}`;
}

/** `1 core`, `2 cores`. */
export const count = (n: number, one: string, many = `${one}s`): string =>
  `${n} ${n === 1 ? one : many}`;

/** Path of a core in its entry. */
export const corePath = ({ cable, colour }: Pick<ConductorBranch, 'cable' | 'colour'>) =>
  ['cables', cable, 'cores', colour] as const;

/** Conductors that end at a node. */
export const landingOn = ({ conductors }: Subject, node: number): ConductorBranch[] =>
  conductors.filter(({ from, to }) => from === node || to === node);

/** The conductor a finding at a node is written at, else the node's item. */
export function whereOf(
  subject: Subject,
  node: number,
): { readonly at: string; readonly path: readonly PropertyKey[] } {
  const [core] = landingOn(subject, node);
  if (core) return { at: core.id, path: corePath(core) };
  const item = subject.network.nodes[node]?.item ?? '';
  return { at: item, path: ['items', item] };
}

/** Conditions that hold in a trial of no named mode: `when B1.calling and B2.cold`. */
export function whenSo(conditions: Readonly<Record<string, boolean>>): string {
  const on = Object.keys(conditions).filter((id) => conditions[id]);
  return on.length > 0 ? `when ${list(on, 'and')}` : 'with nothing asking';
}
