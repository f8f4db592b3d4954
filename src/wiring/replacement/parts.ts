import type { Device } from '../../../schemas/index.ts';

/** Part of every terminal that carries a protective conductor. */
export const EARTH = 'protective conductor';

/** The services a contact can stand for, each with its live in, its live out and its rest. */
const CONTACTS = [
  { feed: 'heating feed', outs: ['heating call', 'heating rest'] },
  { feed: 'hot water feed', outs: ['hot water call', 'hot water rest'] },
  { feed: 'end switch feed', outs: ['end switch call'] },
] as const;

const FEEDS: readonly string[] = CONTACTS.map(({ feed }) => feed);

/** Parts without which a device still does its main work. */
const SECONDARY: readonly string[] = [
  'supply line',
  'supply neutral',
  'heating feed',
  'heating rest',
  'hot water feed',
  'hot water rest',
  'end switch feed',
  'end switch call',
  'satisfied in',
  EARTH,
];

/** Whether a part is a call for a service: what a control is there for. */
export const isCall = (part: string): boolean =>
  part === 'heating call' || part === 'hot water call';
/** Whether a part brings a live in to a contact. */
export const isFeed = (part: string): boolean => FEEDS.includes(part);
/** Whether a device that lacks this part can still take another's place, with something lost. */
export const isSecondary = (part: string): boolean => SECONDARY.includes(part);

/**
 * Parts a terminal plays: those its device states, earth for a protective conductor's
 * terminal, else its own name, so that only a terminal of the same name takes its place.
 */
export function partsOf(device: Device, terminal: string): readonly string[] {
  const found = device.terminals[terminal];
  if (!found) return [];
  if (found.does.length > 0) return found.does;
  return [found.carries === 'earth' ? EARTH : terminal];
}

/** Terminals of a device that play a part; several only where they carry protective conductors. */
export const terminalsFor = (device: Device, part: string): string[] =>
  Object.keys(device.terminals).filter((name) => partsOf(device, name).includes(part));

/** Every part a device plays. */
export const allParts = (device: Device): string[] => [
  ...new Set(Object.keys(device.terminals).flatMap((name) => partsOf(device, name))),
];

/**
 * Parts that must be joined to something for a device to work: its own supply where it has
 * both sides of one, and the feed of every contact whose way out is used.
 * @param used parts of the old device's terminals that something is joined to.
 */
export function neededParts(device: Device, used: ReadonlySet<string>): string[] {
  const parts = allParts(device);
  const powered = parts.includes('supply line') && parts.includes('supply neutral');
  const feeds = CONTACTS.filter(({ outs }) =>
    outs.some((out) => used.has(out) && parts.includes(out)),
  ).map(({ feed }) => feed as string);
  return [...(powered ? ['supply line', 'supply neutral'] : []), ...feeds].filter((part) =>
    parts.includes(part),
  );
}
