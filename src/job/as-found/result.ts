import type { TestAnswer } from '../../diagnosis/tests/index.ts';
import type { AsFound, HazardKind } from '../../wiring/as-found/index.ts';

/** One danger as the page says it. */
export interface SaidHazard {
  readonly kind: HazardKind;
  readonly title: string;
  readonly advice: string;
}

/** Something of a mode as the entry has it and as it is. */
export interface SaidChange {
  readonly subject: string;
  readonly due: string;
  readonly found: string;
}

/** A reading of a mode as the entry has it and as it is. */
export interface SaidReading {
  readonly subject: string;
  readonly due: { readonly answer: TestAnswer; readonly text: string };
  readonly found: { readonly answer: TestAnswer; readonly text: string };
}

/** What one mode does, as found. */
export interface SaidMode {
  readonly id: string;
  readonly title: string;
  readonly changed: readonly SaidChange[];
  /** What still works in it. */
  readonly works: readonly string[];
  readonly readings: readonly SaidReading[];
  /** Fuses and breakers open in it. */
  readonly blown: readonly string[];
}

/**
 * How a reading of the job stands to the two circuits.
 * entry: as the entry has it, and as found too; explained: only what was marked explains it;
 * against: as the entry has it, which what was marked would change; neither: explained by
 * nothing; refused: this system cannot have it.
 */
export type Stand = 'entry' | 'explained' | 'against' | 'neither' | 'refused';

/** A reading of the job against both circuits. */
export interface StoodReading {
  readonly subject: string;
  readonly mode: string;
  readonly answer: TestAnswer;
  readonly text: string;
  readonly due: string;
  readonly found: string;
  readonly stand: Stand;
}

/** All that follows from what was marked. */
export interface FoundResult {
  readonly found: AsFound;
  /** Sealed text of the marks; null where they are too many for a link. */
  readonly link: string | null;
  readonly differences: readonly string[];
  readonly changes: readonly string[];
  /** Items that the changes open and that are not a controls engineer's, with whose they are. */
  readonly othersCovers: readonly string[];
  readonly hazards: readonly SaidHazard[];
  readonly modes: readonly SaidMode[];
  readonly readings: readonly StoodReading[];
  /** Sealed text of the readings; null where there are none, or too many for a link. */
  readonly readingsLink: string | null;
}

/** A wiring mistake that the readings speak for, ready to be marked. */
export interface Suggestion {
  readonly title: string;
  readonly share: number;
  readonly found: AsFound;
}
