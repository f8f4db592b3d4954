import { commonPractice, derived, fromMemory, type Source, seen } from '../../published/index.ts';

/** What the customer says of the time before the fault; asked first. */
export const HISTORIES = ['worked until now', 'since work', 'comes and goes'] as const;
export type History = (typeof HISTORIES)[number];

/** The same as the customer would say it. */
export const HISTORY_WORDS: Readonly<Record<History, string>> = {
  'worked until now': 'It worked until now',
  'since work': 'Not right since somebody worked on it',
  'comes and goes': 'It comes and goes',
};

/** A family of causes, with its share of the calls of each history, per cent. */
interface FamilyRow {
  readonly title: string;
  /** In the order of `HISTORIES`. */
  readonly percent: readonly [number, number, number];
  readonly source: Source;
}

const row = (
  title: string,
  a: number,
  b: number,
  c: number,
  source: Source = commonPractice,
): FamilyRow => ({ title, percent: [a, b, c], source });

/**
 * Shares of the calls, per cent, by history: worked until now; never right since somebody
 * worked on it; comes and goes. The order is to be trusted, the sizes within twice or half,
 * the small ones within five times (common practice, no source). A family that a system has
 * no part for drops out, and the rest are scaled up.
 *
 * What the trade puts at nothing stands at a tenth of a per cent or less and not at zero: the
 * answer to the question of history is sometimes wrong, and a cause at zero is never found.
 */
export const FAMILIES = {
  setting: row('Setting, batteries, pairing', 22, 14, 20),
  valve: row('Valve', 25, 3, 20),
  fuse: row('Fuse, MCB, switch', 10, 6, 2),
  control: row('Control, receiver, programmer', 13, 4, 8),
  pump: row('Pump', 9, 1, 5),
  stat: row('Stat, sensor', 6, 2, 8),
  joint: row('Loose or burnt joint', 7, 11, 20),
  condensate: row('Condensate pump', 3, 1, 4),
  damp: row('Damp, leakage, neutral to earth', 3, 3, 9),
  wrongTerminal: row('Core in a wrong terminal', 0.1, 21, 0.1),
  crossedValves: row('Cores crossed between two valves', 0.05, 6, 0.05),
  link: row('Link missing or left in', 0.1, 12, 0.1),
  wrongVoltage: row('Wrong voltage or type', 0.1, 6, 0.1),
  lostNeutral: row('Polarity reversed; neutral or earth open', 1, 4, 2),
  otherCircuit: row('Borrowed neutral, second supply', 0.1, 2, 1),
  earthAsLive: row('Green-yellow as a live', 0.02, 1, 0.02),
  cable: row('Cable damaged', 1, 3, 1),
  boiler: row(
    'Boiler, gas or water',
    100,
    20,
    60,
    derived('Perhaps half of "no heat" calls are boiler, gas or water (from memory)'),
  ),
} as const satisfies Record<string, FamilyRow>;
export type Family = keyof typeof FAMILIES;

/** A kind of fault within its family. */
interface KindRow {
  readonly family: Family;
  /** Share within the family, relative to the other kinds that the system has. */
  readonly part: number;
  /**
   * Chance that one look or reading finds it behaving well, where it comes and goes; null
   * where it does not come and go.
   */
  readonly behaves: number | null;
  readonly source: Source;
}

const memory = fromMemory('Shares of the kinds of a family, as engineers tell them');
const counted = seen(
  'MIL-HDBK-217F parts count, failures per 10⁶ h, ground benign to fixed, geometric mean',
);

const kind = (
  family: Family,
  part: number,
  behaves: number | null,
  source: Source = memory,
): KindRow => ({ family, part, behaves, source });

/**
 * The kinds of fault. Every part and every chance is from memory unless its source is named; a
 * kind's share is divided among its instances in a system.
 */
export const KINDS = {
  flatCells: kind('setting', 8, 0.5),
  lostPairing: kind('setting', 5, 0.6),
  setting: kind('setting', 9, 0.5),

  valveMotor: kind('valve', 8, 0.6),
  /** Motor sound, gears stripped or spindle of the head jammed. */
  valveHead: kind('valve', 4, 0.5),
  /** Spindle of the body seized. */
  seized: kind('valve', 5, 0.5),
  valveSwitchOpen: kind('valve', 5, 0.6),
  valveSwitchWelded: kind('valve', 1.5, 0.6),
  spring: kind('valve', 1, 0.5),
  latchedLever: kind('valve', 1, null),
  weakValveMotor: kind('valve', 1, 0.5),
  valveShort: kind('valve', 0.5, null),

  fuse: kind('fuse', 6, null),
  breaker: kind('fuse', 3, null),
  /** Toggle switch 0.001–0.003 where a sensitive switch has 0.15–0.44. */
  handSwitch: kind('fuse', 0.02, 0.7, counted),
  weldedSwitch: kind('fuse', 0.2, null),
  wrongFuse: kind('fuse', 0.5, null),

  controlOpen: kind('control', 4, 0.6),
  controlWelded: kind('control', 1.5, 0.6),
  /** Contact burnt so far that it drops part of the volts. */
  controlBurnt: kind('control', 0.5, 0.5),
  board: kind('control', 5, 0.6),
  sensing: kind('control', 0.5, 0.6),
  boardShort: kind('control', 0.3, null),
  insideLink: kind('control', 0.1, 0.6),

  pumpMotor: kind('pump', 3, 0.5),
  pumpSeized: kind('pump', 4, 0.4),
  weakPumpMotor: kind('pump', 1, 0.4),
  pumpShort: kind('pump', 0.5, null),

  statOpen: kind('stat', 3, 0.6),
  statWelded: kind('stat', 1.5, 0.6),
  statBurnt: kind('stat', 0.5, 0.5),
  heater: kind('stat', 0.3, null),
  protectionOpen: kind('stat', 1, 0.6),
  protectionLost: kind('stat', 0.3, null),

  looseEnd: kind('joint', 4, 0.7),
  burntJoint: kind('joint', 2, 0.6),

  condensateMotor: kind('condensate', 1.5, 0.5),
  condensateShort: kind('condensate', 0.2, null),
  condensateSeized: kind('condensate', 1, 0.5),
  levelSwitch: kind('condensate', 1, 0.6),
  overflowSwitch: kind('condensate', 0.5, 0.6),
  overflowLost: kind('condensate', 0.1, null),

  damp: kind('damp', 3, 0.8),
  neutralEarth: kind('damp', 2, 0.5),
  cableLeak: kind('damp', 1, 0.8),

  wrongTerminal: kind('wrongTerminal', 8, null),
  crossed: kind('wrongTerminal', 8, null),
  switchedFeed: kind('wrongTerminal', 3, null),
  crossedValves: kind('crossedValves', 1, null),

  linkOut: kind('link', 4, 0.7),
  linkLeftIn: kind('link', 6, null),
  loopLinked: kind('link', 2, null),

  killedBoard: kind('wrongVoltage', 1, null),

  polarity: kind('lostNeutral', 2, null),
  neutralOpen: kind('lostNeutral', 3, 0.7),
  earthOpen: kind('lostNeutral', 2, 0.7),

  borrowedNeutral: kind('otherCircuit', 1, 0.5),
  secondSupply: kind('otherCircuit', 1, null),

  earthAsLive: kind('earthAsLive', 1, null),

  coreBroken: kind('cable', 2, 0.6),
  coreShort: kind('cable', 1, 0.6),
  shortCable: kind('cable', 0.5, null),

  boilerDead: kind('boiler', 15, 0.7),
  boilerIdle: kind('boiler', 45, 0.7),
  boilerOther: kind('boiler', 10, 0.7),
  /** A pump output, or what feeds the pump inside, that stays on. */
  boilerStaysOn: kind('boiler', 5, 0.7),
  /** A burner that stays lit: the board locks out on a flame that it did not ask for. */
  boilerFiresOn: kind('boiler', 0.3, 0.7),
  lowPressure: kind('boiler', 15, 0.5),
  noGas: kind('boiler', 6, null),
  frozenCondensate: kind('boiler', 4, null),
} as const satisfies Record<string, KindRow>;

/** A kind of fault that has a share of its own. */
export type FaultKind = keyof typeof KINDS;

/** The value that a firm's own counts take the place of. */
export const FAMILY_SHARES = 'How often each family is met, by history';

/** What the shares rest on, for the page that tells it. */
export const SHARE_SOURCES: readonly { readonly value: string; readonly source: Source }[] = [
  { value: FAMILY_SHARES, source: commonPractice },
  { value: 'How often the boiler is the cause', source: FAMILIES.boiler.source },
  { value: 'How often each kind is met within its family', source: memory },
  { value: 'How often hand switches fail beside contacts of stats', source: counted },
];
