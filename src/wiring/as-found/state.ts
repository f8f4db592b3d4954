import type { Cable, System } from '../../../schemas/index.ts';
import { buildNetwork, type Change, changeNetwork, type Network } from '../../circuit/index.ts';
import type { ColourCode } from '../../published/index.ts';
import { itemOf } from '../points.ts';
import type { CoreEnd, EndIndex } from '../rewire.ts';

/**
 * Where one core's end is found: a terminal, `loose` where it lies in none and could reach
 * its own, `short` where it was cut back so far that it does not reach.
 */
export interface FoundEnd extends CoreEnd {
  readonly point: string;
}

/** All that is otherwise than the entry says. Empty: wired as the entry shows. */
export interface AsFound {
  /** Cores of a cable that has others than the entry's, by cable: fewer, more, other colours. */
  readonly cables: Readonly<Record<string, readonly ColourCode[]>>;
  /** Core ends elsewhere than the entry has them; spare and added cores are due in no terminal. */
  readonly ends: readonly FoundEnd[];
  /** Links of the entry that are not fitted, by their place in its list. */
  readonly missingLinks: readonly number[];
  /** Links that are fitted and not in the entry. */
  readonly extraLinks: readonly (readonly [string, string])[];
  /** Contacts and fuses bridged from end to end, by branch id. */
  readonly bridged: readonly string[];
  /** Items that are not there; their cores end loose. */
  readonly absent: readonly string[];
  /** Fuses and breakers of another rating, A, by branch id. */
  readonly ratings: Readonly<Record<string, number>>;
}

/** Wired as the entry shows. */
export const AS_ENTRY: AsFound = {
  cables: {},
  ends: [],
  missingLinks: [],
  extraLinks: [],
  bridged: [],
  absent: [],
  ratings: {},
};

/** Resistance of a bridge or link somebody fitted, ohms. */
const LINK_OHMS = 0.005;

/** Whether a core's end was found in a terminal. */
export const isTerminal = (point: string): boolean => point.includes('.');

/** Cores an entry gives a cable, spare ones among them. */
export const coresOf = ({ cores, spare }: Cable): ColourCode[] => [
  ...(Object.keys(cores) as ColourCode[]),
  ...spare,
];

/** Where the entry has a core's end; `loose` for a spare core and one the entry does not know. */
export const dueAt = ({ cables }: System, { cable, colour, end }: CoreEnd): string =>
  cables[cable]?.cores[colour]?.ends[end] ?? 'loose';

/** Item at which an end of a cable comes out. */
export function itemAtEnd({ cables }: System, cable: string, end: EndIndex): string {
  const ends = Object.values(cables[cable]?.cores ?? {})[0]?.ends;
  return ends ? itemOf(ends[end]) : '';
}

/** What the wiring of a system as found is, core by core. */
export function foundSystem(system: System, found: AsFound): System {
  const cables = Object.fromEntries(
    Object.entries(system.cables).map(([name, cable]) => [
      name,
      foundCable(system, found, name, cable),
    ]),
  );
  const links = system.links.filter((_, i) => !found.missingLinks.includes(i));
  return { ...system, cables, links };
}

function foundCable(system: System, found: AsFound, name: string, cable: Cable): Cable {
  const moved = found.ends.filter((end) => end.cable === name);
  const cores: Cable['cores'] = {};
  const spare: ColourCode[] = [];
  for (const colour of found.cables[name] ?? coresOf(cable)) {
    const [first, second] = ([0, 1] as const).map((end) => {
      const at = { cable: name, colour, end };
      const put = moved.find((m) => m.colour === colour && m.end === end)?.point;
      const point = put ?? dueAt(system, at);
      const there = isTerminal(point) && !found.absent.includes(itemOf(point));
      return there ? point : null;
    });
    if (first === null && second === null) spare.push(colour);
    // Both ends in one terminal: a core that joins nothing and lies nowhere loose.
    else if (first !== second)
      cores[colour] = {
        ends: [first ?? looseEnd(name, colour, 0), second ?? looseEnd(name, colour, 1)],
        sleeve: cable.cores[colour]?.sleeve,
      };
  }
  return { ...cable, cores, spare };
}

/** Name of a loose end's own point, as a spare core's is named. */
const looseEnd = (cable: string, colour: ColourCode, end: EndIndex) =>
  `${cable}.${colour}@${end + 1}`;

/**
 * The circuit as found.
 * @throws RangeError when something named is not in the system; see `problemWithFound`.
 */
export function foundNetwork(intended: Network, found: AsFound): Network {
  const devices = new Map([...intended.items.values()].map((i) => [i.deviceId, i.device]));
  const changes: Change[] = [
    ...found.extraLinks.map(([from, to]) => ({ kind: 'join' as const, from, to, ohms: LINK_OHMS })),
    ...found.bridged.map((branch) => ({ kind: 'closed' as const, branch })),
    ...Object.entries(found.ratings).map(([branch, rating]) => ({
      kind: 'rated' as const,
      branch,
      rating,
    })),
  ];
  return changeNetwork(
    buildNetwork(intended.id, foundSystem(intended.system, found), devices),
    changes,
  );
}
