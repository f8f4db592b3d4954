import { type Device, ISOLATED, type Opening, type Person } from '../../schemas/index.ts';
import {
  INSTRUMENTS,
  type Instrument,
  type Network,
  presenceOf,
  type Simulation,
} from '../circuit/index.ts';
import type { StandingWords } from '../composer/standing-words.ts';
import { problemWith } from '../diagnosis/inference/index.ts';
import {
  type ActTest,
  type ActWords,
  actsOf,
  actWords,
  feedsMotor,
  JOINED_OHMS,
  joinedOhms,
  shortOhms,
  workingMode,
} from '../diagnosis/tests/index.ts';
import {
  isSteadyWhileSound,
  type Place,
  placeNamed,
  placesOf,
  readInstead,
  readsAt,
} from '../site/index.ts';
import type { Ohms } from '../units/index.ts';
import {
  againstFor,
  extraLowCaution,
  extraLowPoints,
  functionOfTerminal,
} from '../wiring/index.ts';
import { safetyIn } from './safety-modes.ts';

/** A terminal to lay a probe on. */
export interface SheetPoint {
  /** `E1.call feed`. */
  readonly id: string;
  readonly name: string;
  /** What it is for at this item. */
  readonly function: string;
  readonly carries: string;
  /** Whether a motor hangs on its conductor; see `joinedOhms`. */
  readonly motor: boolean;
  readonly extraLow: boolean;
  /** What to mind where an extra-low-voltage pair ends at it; empty elsewhere. */
  readonly care: string;
  /** Whether a core or link reaches it. */
  readonly joined: boolean;
  /** The point it is usually read against; null where there is none. */
  readonly against: string | null;
  /** Whether the isolator parts it from the supply, so that a dead test may be made. */
  readonly dead: boolean;
  /** Place among its item's openings; null where none shows it. */
  readonly opening: number | null;
  /** What a controls engineer reads at it. */
  readonly reads: 'live and dead' | 'dead only' | 'none';
  /** The terminal at which the same conductor is read instead; null where it is read here, or nowhere. */
  readonly instead: string | null;
}

/** A fuse link that can be taken out and tested. */
export interface SheetFuse {
  readonly branch: string;
  readonly name: string;
  readonly rating: number;
  /** Place among its item's openings; null where none holds it. */
  readonly opening: number | null;
  /** Whether a controls engineer gets at it. */
  readonly ours: boolean;
}

/** A way of getting at an item. */
export interface SheetOpening {
  /** What comes off, as in `lid of the wiring centre`. */
  readonly title: string;
  readonly by: Person;
  /** What has to be off before it is opened. */
  readonly needs: Opening['needs'];
  /** Whether the device comes off with it and leaves bare terminals. */
  readonly bare: boolean;
  /** What to mind at it; empty where nothing is. */
  readonly care: string;
  /** Why not everything is read there; empty where it is. */
  readonly because: string;
}

/** An item with what can be tested at it, and what opening it takes. */
export interface SheetItem {
  readonly ref: string;
  readonly title: string;
  readonly place: string;
  readonly openings: readonly SheetOpening[];
  readonly points: readonly SheetPoint[];
  readonly fuses: readonly SheetFuse[];
}

/** Something that hands do at an open place. */
export interface SheetAct extends ActWords {
  readonly id: string;
  readonly item: string;
  /** Place among its item's openings. */
  readonly opening: number;
  readonly act: ActTest['act'];
  /** The outcome that is looked at; null for any other act. */
  readonly outcome: string | null;
  /** Up to how many ohms count as joined, where it reads a resistance; see `joinedOhms`. */
  readonly joined: Ohms;
}

/** Something seen, heard or felt. */
export interface SheetOutcome {
  /** `E1.burner`. */
  readonly id: string;
  readonly item: string;
  readonly title: string;
  readonly otherwise: string;
  readonly by: 'sight' | 'hearing' | 'touch';
  /** Where one looks, where that is not at the item; else empty. */
  readonly at: string;
  /** What to mind before looking; empty where nothing is. */
  readonly care: string;
  /** Outcomes that the same look settles, itself among them: a valve’s positions. Else empty. */
  readonly oneOf: readonly string[];
  /** The one mode it is looked at in, where no mode changes it, as what a pressure gauge shows. */
  readonly steady: string | null;
}

/** A mode, how it is brought about, and what a sound system shows in it. */
export interface SheetMode {
  readonly id: string;
  readonly title: string;
  readonly summary: string;
  readonly bring: string;
  /** Whether an engineer brings it about; false where it is only met. */
  readonly testable: boolean;
  readonly isolated: boolean;
  /** By outcome id. */
  readonly due: Readonly<Record<string, 'seen' | 'not seen' | 'comes and goes'>>;
  /** Safety devices that act in it, in words; bringing it about proves them. */
  readonly safety: readonly string[];
}

/** The supply of a boiler at its terminals, or where the same conductors are read instead. */
export interface SheetSupply {
  /** Mode in which the boiler fires: loaded, as it will be left. */
  readonly mode: string;
  /** Line to neutral, line to earth, neutral to earth. */
  readonly pairs: readonly (readonly [from: string, to: string])[];
}

/** A system as a job’s pages need it: words and places, no circuit. */
export interface Sheet {
  readonly id: string;
  readonly title: string;
  readonly wiring: number;
  readonly items: readonly SheetItem[];
  readonly modes: readonly SheetMode[];
  readonly outcomes: readonly SheetOutcome[];
  readonly acts: readonly SheetAct[];
  readonly instruments: readonly Pick<Instrument, 'id' | 'title' | 'note'>[];
  /** Where the boiler's supply is read last; null where a controls engineer reads none. */
  readonly supply: SheetSupply | null;
  /** Up to how many ohms the live of a motor and a neutral count as joined; see `shortOhms`. */
  readonly short: Ohms;
  /** Of an arrangement from parts: what is proven of it and what is wrong; null of an entry. */
  readonly composed: StandingWords | null;
}

/** The same of two terminals; undefined where it is as usual. */
export function joinedIn(sheet: Sheet, from: string | null, to: string | null): Ohms | undefined {
  const [one, other] = [from, to].map((id) => (id === null ? undefined : pointIn(sheet, id)));
  const isAcross = [
    [one, other],
    [other, one],
  ].some(([live, neutral]) => live?.motor && neutral?.carries === 'neutral');
  return isAcross ? sheet.short : undefined;
}

/** What the pages need of a simulated system. */
export function sheetOf(simulation: Simulation): Sheet {
  const { network } = simulation;
  const { system } = network;
  return {
    id: network.id,
    title: system.title,
    wiring: system.version,
    items: [...network.items.keys()].map((ref) => itemOf(simulation, ref)),
    modes: Object.entries(system.modes).map(([id, mode]) => ({
      id,
      title: mode.title,
      summary: mode.summary ?? '',
      bring: mode.bring ?? '',
      testable: mode.testable,
      isolated: id === ISOLATED,
      due: Object.fromEntries(
        [...simulation.modes.get(id)!.outcomes].map(([outcome, seen]) => [
          outcome,
          seen === 'hunting' ? 'comes and goes' : seen ? 'seen' : 'not seen',
        ]),
      ),
      safety: safetyIn(simulation, id),
    })),
    outcomes: outcomesOf(simulation),
    acts: actsOf(network).map((test) => actOf(network, test)),
    instruments: INSTRUMENTS.map(({ id, title, note }) => ({ id, title, note })),
    supply: supplyOf(simulation),
    short: shortOhms(network),
    composed: null,
  };
}

function supplyOf(simulation: Simulation): SheetSupply | null {
  const { network } = simulation;
  const mode = workingMode(simulation);
  const boiler = [...network.items].find(([, { device }]) => device.family === 'boiler')?.[0];
  if (mode === undefined || boiler === undefined) return null;
  const readAt = (carries: string): string | null => {
    const node = network.nodes.find(
      ({ item, terminal }) => item === boiler && terminal?.carries === carries,
    );
    return node ? readInstead(network, node.id) : null;
  };
  const [line, neutral, earth] = ['line', 'neutral', 'earth'].map(readAt);
  if (!line || !neutral || !earth) return null;
  const pairs = [
    [line, neutral],
    [line, earth],
    [neutral, earth],
  ] as const;
  return { mode, pairs };
}

function actOf(network: Network, test: ActTest): SheetAct {
  const { item, opening } = placeNamed(network, test.place);
  const openings = Object.values(network.items.get(item)!.device.openings);
  const [from, to] = test.points;
  return {
    ...actWords(network, test),
    id: test.id,
    item,
    opening: openings.indexOf(opening),
    act: test.act,
    outcome: test.outcome ?? null,
    joined: from && to ? joinedOhms(network, from, to) : JOINED_OHMS,
  };
}

function outcomesOf(simulation: Simulation): SheetOutcome[] {
  const { network } = simulation;
  const working = workingMode(simulation) ?? null;
  return [...network.items].flatMap(([item, { device }]) => {
    const positions = positionsOf(device);
    return Object.entries(device.outcomes).map(([name, { title, otherwise, by, at, care }]) => ({
      id: `${item}.${name}`,
      item,
      title,
      otherwise: otherwise ?? `Not so: ${title.toLowerCase()}`,
      by,
      at: at ?? '',
      care: care ?? '',
      oneOf: positions.includes(name) ? positions.map((one) => `${item}.${one}`) : [],
      steady: isSteadyWhileSound(network, `${item}.${name}`) ? working : null,
    }));
  });
}

/** Outcomes that say, one each, every position of a device's mechanism; empty where they do not. */
function positionsOf({ outcomes, mechanism }: Device): string[] {
  const said = Object.entries(outcomes).flatMap(([name, { when }]) =>
    typeof when === 'object' && 'position' in when ? [{ name, at: [when.position].flat() }] : [],
  );
  const all = said.flatMap(({ at }) => at);
  const isWhole =
    all.length === mechanism?.positions.length && new Set(all).size === mechanism.positions.length;
  return isWhole && said.length > 1 ? said.map(({ name }) => name) : [];
}

function itemOf(simulation: Simulation, ref: string): SheetItem {
  const { network } = simulation;
  const item = network.items.get(ref)!;
  const joined = new Set(
    network.branches.flatMap((b) =>
      b.kind === 'conductor' || b.kind === 'wire link' ? [b.from, b.to] : [],
    ),
  );
  const mayBeDead = deadPoints(simulation);
  const points = network.nodes.filter((node) => node.item === ref && node.terminal);
  const own = placesOf(network).filter((place) => place.item === ref);
  const presence = presenceOf(item.device, ref);
  return {
    ref,
    title: item.title,
    place: item.place,
    openings: own.map(({ brings, opening: { title, by, needs, care, because } }) => ({
      title,
      by,
      needs,
      bare: Object.keys(brings).some((condition) => condition === presence),
      care: care ?? '',
      because: because ?? '',
    })),
    points: points.map((node) => ({
      id: node.id,
      name: node.name,
      function: functionOfTerminal(network, node),
      carries: node.terminal!.carries,
      motor: feedsMotor(network, node.id),
      extraLow: node.terminal!.carries === 'call' || node.terminal!.voltage === 'extra-low',
      care: extraLowPoints(network).has(node.id) ? extraLowCaution(network, ref) : '',
      joined: joined.has(node.index),
      against: againstFor(network, node.id),
      dead: mayBeDead(node.id),
      ...reachOf(network, own, node.id),
    })),
    fuses: network.branches.flatMap((b) =>
      b.kind === 'element' && b.item === ref && b.element.kind === 'fuse'
        ? [
            {
              branch: b.id,
              name: b.element.name ?? b.name,
              rating: b.element.rating,
              ...holderOf(own, b.id),
            },
          ]
        : [],
    ),
  };
}

/** How a terminal is got at. */
function reachOf(
  network: Network,
  own: readonly Place[],
  point: string,
): Pick<SheetPoint, 'opening' | 'reads' | 'instead'> {
  const opening = own.findIndex(({ terminals }) => terminals.includes(point));
  const reads = opening < 0 ? 'none' : readsAt(own[opening]!);
  return {
    opening: opening < 0 ? null : opening,
    reads,
    instead: reads === 'none' ? readInstead(network, point) : null,
  };
}

/** How a fuse is got at. */
function holderOf(own: readonly Place[], branch: string): Pick<SheetFuse, 'opening' | 'ours'> {
  const opening = own.findIndex(({ fuses }) => fuses.includes(branch));
  return opening < 0
    ? { opening: null, ours: false }
    : { opening, ours: own[opening]!.opening.by === 'controls engineer' };
}

/** Whether a dead test may be made at a point: an earth stands for the other probe. */
function deadPoints(simulation: Simulation): (point: string) => boolean {
  const { network } = simulation;
  const earths = network.nodes.filter(({ terminal }) => terminal?.carries === 'earth');
  return (point) => {
    const to = earths.find(({ id }) => id !== point)?.id;
    if (to === undefined) return false;
    const asked = { kind: 'dead', mode: ISOLATED, from: point, to, answer: 'open' } as const;
    return problemWith(simulation, asked) === null;
  };
}

/** A mode, an outcome, an item and so on of a sheet by id; undefined when it has none. */
export const modeIn = (sheet: Sheet, id: string): SheetMode | undefined =>
  sheet.modes.find((mode) => mode.id === id);
export const outcomeIn = (sheet: Sheet, id: string): SheetOutcome | undefined =>
  sheet.outcomes.find((outcome) => outcome.id === id);
export const itemIn = (sheet: Sheet, ref: string): SheetItem | undefined =>
  sheet.items.find((item) => item.ref === ref);
export const pointIn = (sheet: Sheet, id: string): SheetPoint | undefined =>
  itemIn(sheet, refOf(id))?.points.find((point) => point.id === id);
export const fuseIn = (sheet: Sheet, branch: string): SheetFuse | undefined =>
  sheet.items.flatMap(({ fuses }) => fuses).find((fuse) => fuse.branch === branch);

export const actIn = (sheet: Sheet, id: string): SheetAct | undefined =>
  sheet.acts.find((act) => act.id === id);

/** `E1` of `E1.call feed`, `Q1/fuse` or `E1.burner`. */
export const refOf = (id: string): string => id.split(/[./]/)[0]!;
