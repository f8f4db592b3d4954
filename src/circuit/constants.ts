/**
 * Resistances of joins that no published table gives (common practice, no source). They are
 * small beside every load and large beside rounding, and no reading class depends on their
 * exact value.
 */
export const CLOSED_CONTACT_OHMS = 0.05;
export const OPEN_CONTACT_OHMS = 1e9;
export const LINK_OHMS = 0.005;
export const FUSE_OHMS = 0.05;
export const BREAKER_OHMS = 0.01;
export const BLOWN_OHMS = 1e9;

/** Leakage of every terminal's insulation to earth, siemens (100 GΩ). */
export const TERMINAL_LEAKAGE = 1e-11;

/** Capacitance of a core to its surroundings, farads per metre (common practice, no source). */
export const SURROUNDINGS_CAPACITANCE_PER_METRE = 15e-12;

/**
 * Share of the external loop impedance that lies in the line; the rest in the return. Derived:
 * line and neutral conductors are equal.
 */
export const LINE_SHARE = 0.5;

/** Neutral–earth link of a TN-C-S supply at the origin, ohms. */
export const ORIGIN_LINK_OHMS = 0.001;

/** A device's state that has not come to rest after this many rounds is said to hunt. */
export const MOST_ROUNDS = 64;
