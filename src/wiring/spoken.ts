import type { Device } from '../../schemas/index.ts';
import type { ElementBranch, Network, Seen } from '../circuit/index.ts';
import { COLOUR_CODES } from '../published/index.ts';
import { terminalMark, terminalWords } from '../words/index.ts';
import { itemOf, nameOf } from './points.ts';
import type { CoreEnd } from './rewire.ts';

const BY_FAMILY: Readonly<Partial<Record<Device['family'], string>>> = {
  supply: 'consumer unit',
  isolation: 'fused spur',
  boiler: 'boiler',
  receiver: 'receiver',
};

/** An item in words, as people name it to each other: `boiler`, `room stat`, `heating valve`. */
export function itemName(network: Network, reference: string): string {
  const { device, title } = network.items.get(reference)!;
  const short = title
    .split(',')[0]!
    .replace(/\bthermostat\b/i, 'stat')
    .replace(/^(?:two-channel|three-port) /i, '');
  return BY_FAMILY[device.family] ?? short.charAt(0).toLowerCase() + short.slice(1);
}

/** An item in words, its reference behind: `boiler E1`, `room stat B1`. */
export const itemWords = (network: Network, reference: string): string =>
  `${itemName(network, reference)} ${reference}`;

/** A terminal's own name in words: `SL`, and `terminal 3` of a numbered one. */
export const wayWords = (point: string): string => terminalWords(nameOf(point));

/** The same under its item, where a bare number says enough: `5`. */
export const wayMark = (point: string): string => terminalMark(nameOf(point));

/** A terminal with its item's reference alone: `SL at E1`, `terminal 5 at X1`. */
export const pointMark = (point: string): string => `${wayWords(point)} at ${itemOf(point)}`;

/** A place in words: `at the boiler E1`, `in the wiring centre X1`. */
export const atItem = (network: Network, reference: string): string =>
  `${isBox(network, reference) ? 'in' : 'at'} the ${itemWords(network, reference)}`;

/** A terminal in words: `SL at the boiler E1`, `terminal 5 in the wiring centre X1`. */
export const pointWords = (network: Network, point: string): string =>
  `${wayWords(point)} ${atItem(network, itemOf(point))}`;

/** Two terminals in words: `SL to N at the boiler E1`. */
export const pairWords = (network: Network, from: string, to: string): string =>
  itemOf(from) === itemOf(to)
    ? `${wayWords(from)} to ${pointWords(network, to)}`
    : `${pointWords(network, from)} to ${pointWords(network, to)}`;

/** A part of an item in words beside the item's: `motor`, where the entry says `valve motor`. */
export function partWords(network: Network, { item, element, name }: ElementBranch): string {
  const said = element.name ?? name;
  const last = itemName(network, item);
  const own = [last, last.slice(last.lastIndexOf(' ') + 1)].find((one) =>
    said.startsWith(`${one} `),
  );
  return own === undefined ? said : said.slice(own.length + 1);
}

/** A fuse in words: `fuse of the fused spur Q1`. */
export function fuseWords(network: Network, branch: string): string {
  const [item, element] = branch.split('/') as [string, string];
  const { elements } = network.items.get(item)!.device;
  return `${elements[element]?.name ?? element} of the ${itemWords(network, item)}`;
}

/** A cable by what it goes to, its reference behind: `room stat cable W3`, `heating valve lead W5`. */
export function cableWords(network: Network, cable: string): string {
  const { kind, cores } = network.system.cables[cable]!;
  const ends = [...new Set(Object.values(cores).flatMap((core) => core!.ends.map(itemOf)))];
  const named = ends.toSorted((a, b) => rank(network, b) - rank(network, a))[0]!;
  const fromSupply = ends.some((end) => isSupply(network, end));
  if (ends.every((end) => isBox(network, end))) return `box-to-box cable ${cable}`;
  const what = kind === 'fixed lead' ? 'lead' : fromSupply ? 'supply' : 'cable';
  return `${itemName(network, named).replace(/ at the .+$/, '')} ${what} ${cable}`;
}

/** A core in words: `brown core of the room stat cable W3`. */
export const coreWords = (
  network: Network,
  { cable, colour }: Pick<CoreEnd, 'cable' | 'colour'>,
): string => `${COLOUR_CODES[colour]} core of the ${cableWords(network, cable)}`;

/** Two cores in words: `brown and grey of the room stat cable W3`. */
export const corePair = (
  network: Network,
  a: Pick<CoreEnd, 'cable' | 'colour'>,
  b: Pick<CoreEnd, 'cable' | 'colour'>,
): string =>
  a.cable === b.cable
    ? `${COLOUR_CODES[a.colour]} and ${COLOUR_CODES[b.colour]} of the ${cableWords(network, a.cable)}`
    : `${coreWords(network, a)} and ${coreWords(network, b)}`;

const familyOf = (network: Network, item: string) => network.items.get(item)!.device.family;
const isBox = (network: Network, item: string) => familyOf(network, item) === 'wiring centre';
const isSupply = (network: Network, item: string) =>
  ['supply', 'isolation'].includes(familyOf(network, item));

/** Which of its two items a cable is named by: what it serves before what it comes from. */
function rank(network: Network, item: string): number {
  const family = familyOf(network, item);
  const order = ['supply', 'isolation', 'wiring centre', 'boiler'];
  return order.includes(family) ? order.indexOf(family) : order.length;
}

/** An outcome as a person says it. */
export function outcomeText({ items }: Network, outcome: string, seen: Seen): string {
  const said = items.get(itemOf(outcome))!.device.outcomes[nameOf(outcome)]!;
  if (seen === 'hunting') return `${said.title}, coming and going`;
  return seen ? said.title : (said.otherwise ?? `Not: ${said.title}`);
}
