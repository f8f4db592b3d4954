/**
 * Dangers a circuit as found can hold, gravest first.
 * earth live: earthed metal stands at a dangerous voltage; live when isolated: conductors
 * stay live with the isolator off; mains on extra-low: mains on a terminal made for
 * extra-low voltage; safety bypassed: a safety device no longer stops what it must stop;
 * earth missing: a class I item without its protective earth; neutral live: a neutral
 * stands at line potential, so polarity is reversed or the neutral is lost; neutral
 * switched: a neutral goes with a control; loose live: a loose core is live; short circuit: a
 * fuse or breaker opens on the current; oversize fuse: a fuse of a higher rating, or none
 * that acts; core colour: a green-yellow core that is no protective conductor, or another
 * that is; current in earth: the protective conductor carries a load; does not stop: heat is
 * made where the entry has it off; fed through a control: a permanent live that goes with one.
 */
export const HAZARD_KINDS = [
  'earth live',
  'live when isolated',
  'mains on extra-low',
  'safety bypassed',
  'earth missing',
  'neutral live',
  'neutral switched',
  'loose live',
  'core colour',
  'current in earth',
  'short circuit',
  'oversize fuse',
  'does not stop',
  'fed through a control',
] as const;
export type HazardKind = (typeof HAZARD_KINDS)[number];

/** One danger, where it is, in plain words. */
export interface Hazard {
  readonly kind: HazardKind;
  /** Terminals, items or branches it concerns. */
  readonly at: readonly string[];
  readonly title: string;
  /** What it may do, and what to do at once. */
  readonly advice: string;
}

/** Hazards in order of gravity; of one kind, in the order found. */
export const byGravity = (hazards: readonly Hazard[]): Hazard[] =>
  hazards.toSorted((a, b) => HAZARD_KINDS.indexOf(a.kind) - HAZARD_KINDS.indexOf(b.kind));
