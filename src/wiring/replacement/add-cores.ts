import type { Cable, Device } from '../../../schemas/index.ts';
import type { Network, Simulation } from '../../circuit/index.ts';
import type { ColourCode } from '../../published/index.ts';
import { itemOf, nameOf } from '../points.ts';
import type { EndIndex } from '../rewire.ts';
import { onExtraLow } from './match.ts';
import { EARTH, partsOf, terminalsFor } from './parts.ts';
import type { CoreStep, NewCable } from './steps.ts';
import { supplyPoint } from './supply-point.ts';

/** The cores at an item once those that were missing have been found or run. */
export interface Added {
  readonly cores: readonly CoreStep[];
  readonly newCable: NewCable | null;
  readonly unserved: readonly string[];
}

/** Most cores beside the protective conductor in one flexible cord of the common kinds. */
const MOST_CORES = 4;

/**
 * Colours of flexible cords beside green-yellow, by their number, and which of them stands for
 * the neutral: brown and blue; brown, black, grey; blue, brown, black, grey (HD 308; the cords
 * of BS EN 50525).
 */
const FLEX: Readonly<Record<number, readonly ColourCode[]>> = {
  2: ['BN', 'BU'],
  3: ['BN', 'BK', 'GY'],
  4: ['BN', 'BU', 'BK', 'GY'],
};

/**
 * Finds a core for each part of the new device that nobody brings: a spare one of the item's
 * cable; else a flexible cord with enough cores in that cable's place; else, where the cable
 * carries an extra-low-voltage call or would need too many, a cord of its own beside it.
 */
export function addCores(
  before: Simulation,
  item: string,
  device: Device,
  kept: readonly CoreStep[],
  missing: readonly string[],
): Added {
  const { network } = before;
  const main = mainCable(network, item, kept);
  const wants = missing.map((part) => ({ part, to: `${item}.${terminalsFor(device, part)[0]!}` }));
  const optional = spareUses(device, kept, wants, item);
  if (!main) return { cores: kept, newCable: null, unserved: missing };
  const served = [...wants, ...optional].flatMap((want) => {
    const far = supplyPoint(before, main.farItem, want.part);
    return far === null ? [] : [{ ...want, far }];
  });
  const unserved = missing.filter((part) => !served.some((want) => want.part === part));
  const free = main.extraLow ? [] : main.data.spare.filter((colour) => colour !== 'GNYE');
  const fromSpare = served.slice(0, free.length).map(
    ({ part, to, far }, i): CoreStep => ({
      cable: main.cable,
      colour: free[i]!,
      end: main.end,
      far,
      was: null,
      now: to,
      core: 'spare',
      sleeve: sleeveFor(free[i]!, part === 'supply neutral'),
    }),
  );
  const rest = served.slice(free.length).filter(({ part }) => missing.includes(part));
  const cores = [...kept, ...fromSpare];
  if (rest.length === 0) return { cores, newCable: null, unserved };
  const own = kept.filter((c) => c.cable === main.cable && c.colour !== 'GNYE' && c.now !== null);
  const fits = own.length + fromSpare.length + rest.length <= MOST_CORES;
  const made =
    !main.extraLow && fits && main.data.kind !== 'fixed lead'
      ? inPlace(device, cores, rest, main)
      : beside(network, device, cores, rest, main);
  return { ...made, unserved };
}

interface Main {
  readonly cable: string;
  readonly data: Cable;
  readonly end: EndIndex;
  readonly farItem: string;
  readonly extraLow: boolean;
}
interface Want {
  readonly part: string;
  readonly to: string;
  readonly far: string;
}

/** The item's cable with the most cores: the one a missing core is looked for in first. */
function mainCable(network: Network, item: string, kept: readonly CoreStep[]): Main | null {
  const byCable = Map.groupBy(kept, ({ cable }) => cable);
  const [most] = [...byCable.values()].toSorted((a, b) => b.length - a.length);
  const first = most?.[0];
  if (!most || !first) return null;
  const extraLow = most.some(({ was }) => was !== null && onExtraLow(network, was));
  return {
    cable: first.cable,
    data: network.system.cables[first.cable]!,
    end: first.end,
    farItem: itemOf(first.far),
    extraLow: extraLow && item !== itemOf(first.far),
  };
}

/** A neutral that the new device can do without, and takes where a spare core is there. */
function spareUses(
  device: Device,
  kept: readonly CoreStep[],
  wants: readonly { part: string }[],
  item: string,
): { part: string; to: string }[] {
  const [terminal] = terminalsFor(device, 'supply neutral');
  if (!terminal || wants.some(({ part }) => part === 'supply neutral')) return [];
  const to = `${item}.${terminal}`;
  return kept.some(({ now }) => now === to) ? [] : [{ part: 'supply neutral', to }];
}

/** The marking a core needs for its work; null where its colour says it. */
function sleeveFor(colour: ColourCode, neutral: boolean): ColourCode | null {
  const due = neutral ? 'BU' : 'BN';
  return colour === due ? null : due;
}

/** A cord with enough cores in the old cable's place: every core of that cable is a new one. */
function inPlace(
  device: Device,
  cores: readonly CoreStep[],
  wants: readonly Want[],
  main: Main,
): Omit<Added, 'unserved'> {
  const others = cores.filter((c) => c.cable !== main.cable);
  const own = cores.filter((c) => c.cable === main.cable && c.colour !== 'GNYE' && c.now !== null);
  const earth = cores.filter((c) => c.cable === main.cable && c.colour === 'GNYE');
  const ends = [
    ...own.map(({ was, now, far }) => ({ was, now: now!, far })),
    ...wants.map(({ to, far }) => ({ was: null, now: to, far })),
  ].toSorted((a, b) => order(device, a.now) - order(device, b.now));
  const colours = coloursFor(ends.map(({ now }) => isNeutral(device, now)));
  const made = ends.map(
    ({ was, now, far }, i): CoreStep => ({
      cable: main.cable,
      colour: colours[i]!,
      end: main.end,
      far,
      was,
      now,
      core: 'new',
      sleeve: sleeveFor(colours[i]!, isNeutral(device, now)),
    }),
  );
  const inCord = FLEX[Math.max(2, ends.length)]!;
  return {
    cores: [...made, ...earth.map((c): CoreStep => ({ ...c, core: 'new' })), ...others],
    newCable: {
      cable: main.cable,
      inPlaceOf: main.cable,
      from: main.farItem,
      cores: [...made.map(({ colour }) => colour), 'GNYE'],
      spare: inCord.filter((colour) => !made.some((core) => core.colour === colour)),
      size: main.data.kind === 'flex' ? main.data.size : 0.75,
      length: main.data.length,
    },
  };
}

/** A cord of its own for what is missing, with a protective conductor where both ends have one. */
function beside(
  network: Network,
  device: Device,
  cores: readonly CoreStep[],
  wants: readonly Want[],
  main: Main,
): Omit<Added, 'unserved'> {
  const taken = Object.keys(network.system.cables).map((name) => Number(name.slice(1)));
  const cable = `W${Math.max(...taken) + 1}`;
  const ends = wants.toSorted((a, b) => order(device, a.to) - order(device, b.to));
  const colours = coloursFor(ends.map(({ to }) => isNeutral(device, to)));
  const base = { cable, end: 1 as const, was: null, core: 'new' as const };
  const made = ends.map(
    ({ to, far }, i): CoreStep => ({
      ...base,
      colour: colours[i]!,
      far,
      now: to,
      sleeve: sleeveFor(colours[i]!, isNeutral(device, to)),
    }),
  );
  const farDevice = network.items.get(main.farItem)!.device;
  const [here] = terminalsFor(device, EARTH);
  const [there] = terminalsFor(farDevice, EARTH);
  const earth: CoreStep[] =
    here && there
      ? [
          {
            ...base,
            colour: 'GNYE',
            far: `${main.farItem}.${there}`,
            now: `${itemOf(ends[0]!.to)}.${here}`,
            sleeve: null,
          },
        ]
      : [];
  const inCord = FLEX[Math.max(2, ends.length)]!;
  return {
    cores: [...cores, ...made, ...earth],
    newCable: {
      cable,
      inPlaceOf: null,
      from: main.farItem,
      cores: [...made, ...earth].map(({ colour }) => colour),
      spare: inCord.filter((colour) => !made.some((core) => core.colour === colour)),
      size: 0.75,
      length: main.data.length,
    },
  };
}

const isNeutral = (device: Device, point: string): boolean =>
  device.terminals[nameOf(point)]?.carries === 'neutral';

/** Live in first, then the neutral, then what is switched. */
function order(device: Device, point: string): number {
  if (isNeutral(device, point)) return 2;
  const parts = partsOf(device, nameOf(point));
  if (parts.includes('supply line')) return 0;
  return parts.some((part) => part.endsWith('feed')) ? 1 : 3;
}

/** Colours of a cord's cores in order: blue, or the last, for the neutral. */
function coloursFor(neutrals: readonly boolean[]): ColourCode[] {
  const cord = FLEX[Math.max(2, neutrals.length)]!;
  const forNeutral = cord.includes('BU') ? 'BU' : cord.at(-1)!;
  const lives = cord.filter((colour) => colour !== forNeutral || !neutrals.includes(true));
  let next = 0;
  return neutrals.map((neutral) => (neutral ? forNeutral : lives[next++]!));
}
