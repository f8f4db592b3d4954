import { commonPractice, type Source, seen } from '../../published/index.ts';

/** How often a kind of fault is met, relative to the others. */
interface Met {
  readonly weight: number;
  readonly source: Source;
}

/** The same with the class it is of. */
export interface Weight extends Met {
  readonly class: WeightClass;
}

const counted = seen(
  'MIL-HDBK-217F parts count, failures per 10⁶ h, ground benign to fixed, geometric mean',
);
const lived = seen('Process-industry Weibull lives: motorised valve 25,000 h, pump 35,000 h');

/**
 * Relative weights of the kinds of fault. Where a published figure is used it gives the
 * order of magnitude within its own group; what joins the groups is common practice, since
 * no published figure was found for screw terminals or for mistakes of installers, and
 * published ones differ among themselves by ten to a hundred times.
 */
const CLASSES = {
  /** Contact of a thermostat or end switch that no longer closes: sensitive switch 0.15–0.44. */
  contactOpen: { weight: 0.26, source: counted },
  /** The same welded, a third as often. */
  contactWelded: { weight: 0.09, source: commonPractice },
  /** Contact of a hand switch: toggle 0.001–0.003. */
  handSwitch: { weight: 0.002, source: counted },
  /** Fuse gone without cause: 0.010–0.020 by count, but it is met more often than that. */
  fuse: { weight: 0.1, source: commonPractice },
  breaker: { weight: 0.1, source: commonPractice },
  /** Control board or receiver dead. */
  board: { weight: 0.4, source: commonPractice },
  sensing: { weight: 0.05, source: commonPractice },
  resistor: { weight: 0.02, source: commonPractice },
  source: { weight: 0.05, source: commonPractice },
  /** Valve motor: 25,000 h against a pump's 35,000 h; beside the contacts by common practice. */
  valveMotor: { weight: 1, source: lived },
  pumpMotor: { weight: 0.7, source: lived },
  stuck: { weight: 0.5, source: commonPractice },
  windingShort: { weight: 0.05, source: commonPractice },
  internalLink: { weight: 0.005, source: commonPractice },
  wireLink: { weight: 0.02, source: commonPractice },
  /** Screw terminal no longer holding its core. */
  looseEnd: { weight: 0.1, source: commonPractice },
  coreBroken: { weight: 0.02, source: commonPractice },
  coreShort: { weight: 0.01, source: commonPractice },
  coreLeak: { weight: 0.01, source: commonPractice },
  /** A mistake at one core end, shared among all the ways of making it there. */
  exchanged: { weight: 0.03, source: commonPractice },
  polarity: { weight: 0.02, source: commonPractice },
  neighbour: { weight: 0.01, source: commonPractice },
  switchedFeed: { weight: 0.03, source: commonPractice },
  linkLeftIn: { weight: 0.05, source: commonPractice },
  /** A cable with fewer cores than belong. */
  shortCable: { weight: 0.02, source: commonPractice },
  bypassed: { weight: 0.03, source: commonPractice },
  oversizeFuse: { weight: 0.1, source: commonPractice },
} as const satisfies Record<string, Met>;

/** A kind of fault that has a weight of its own. */
export type WeightClass = keyof typeof CLASSES;

export const WEIGHTS = Object.fromEntries(
  Object.entries(CLASSES).map(([name, met]) => [name, { ...met, class: name }]),
) as Readonly<Record<WeightClass, Weight>>;

/** A part of a class's weight, for one of several ways in which one mistake can be made. */
export const partOf = (weight: Weight, part: number): Weight => ({
  ...weight,
  weight: weight.weight * part,
});

/** What the weights rest on, for the page that tells it. */
export const WEIGHT_SOURCES: readonly { readonly value: string; readonly source: Source }[] = [
  { value: 'How often contacts and hand switches fail', source: counted },
  { value: 'How often valve motors fail beside pumps', source: lived },
  { value: 'How often everything else fails, wiring mistakes included', source: commonPractice },
];
