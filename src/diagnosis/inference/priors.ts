/**
 * Priors and rates of misreading: how far an entry and an engineer's word are trusted. All are
 * common practice, no source: no published rate was found; rankings are tested with rates ten
 * times higher and lower.
 */

/** How often an engineer's report is wrong. */
export const MISREADING = {
  /** Probability that a reading is taken wrongly, at the wrong point or in the wrong mode. */
  reading: 0.03,
  /** Probability that what was seen or heard is reported wrongly. */
  look: 0.02,
  /** Probability that something is found in an open box where nothing is: it is held in the hand. */
  found: 0.002,
} as const;

/** Prior probabilities, before anything is seen. */
export const PRIOR = {
  /** Nothing wrong here: the customer's trouble lies elsewhere. */
  sound: 0.05,
  /**
   * Something that the entry does not model, and that shows it: wired otherwise, a part unlike its
   * kind, a resistance or a third fault that no list has. One call in ten. Of faults that no list
   * has about half answer every test as one does that is listed, and are mended with it.
   */
  notAsShown: 0.1,
  /** Two faults at once. */
  pair: 0.03,
  /**
   * Nothing broken, but something other than the modes take it to be, shared evenly: a reservoir
   * full, a cut-out tripped, a battery flat, an isolator off.
   */
  circumstance: 0.06,
} as const;

/**
 * How often what blew a fuse, or tripped a breaker, and is not found beside it is something that
 * the entry does not model: neither opens for nothing (common practice, no source).
 */
export const UNEXPLAINED_TRIP = 0.2;

/** Prior probability of one fault and nothing else. */
export const ONE_FAULT = 1 - Object.values(PRIOR).reduce((sum, share) => sum + share, 0);

/**
 * Share that an order of tests leaves aside for what none of its tests finds. An order has no end
 * for it, so how sure a verdict is said to be moves no test.
 */
export const BEYOND_TESTS = 0.01;

/** How near a figure typed lies to the one computed. */
export const CLOSENESS = {
  /** Spread of the logarithm of an induced or back-fed voltage: lengths are estimates. */
  volts: 0.35,
  /** Spread of the logarithm of a resistance through a load or leak: ratings are nominal. */
  ohms: 0.7,
  /** Share of figures that follow neither: another length, another meter. */
  strayed: 0.3,
  /** Relative distance from a class limit within which either class is taken as agreeing. */
  atLimit: 0.08,
} as const;

/** Misreadings that one explanation may contain before pairs of faults are tried. */
export const ALLOWED_MISREADINGS = 1;
