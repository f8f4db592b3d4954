import type { Person } from '../../schemas/index.ts';
import type { ReadingClass } from '../circuit/index.ts';
import type { Family } from '../diagnosis/index.ts';
import type { TestAnswer } from '../diagnosis/tests/index.ts';
import type { FoundParts } from './found-parts.ts';

/** A cause among those that one repair mends. */
export interface FoundCause {
  readonly title: string;
  /** Family of the cause; `sound` where nothing is broken, null where two are. */
  readonly family: Family | 'sound' | null;
  readonly share: number;
  readonly hazard: string | null;
  /** What is done where it is this one, if in other words than the repair's own; null if in the same. */
  readonly says: string | null;
}

/** What a repair’s likeliest cause leaves of the circuit in a mode, with all covers on. */
export interface FoundPath {
  readonly mode: string;
  /** What each mains terminal shows to its neutral. */
  readonly shows: readonly (readonly [terminal: string, reading: ReadingClass])[];
  /** How every part of the drawing is left. */
  readonly parts: FoundParts;
}

/** A repair with all that speaks for it and against it. */
export interface FoundRepair {
  readonly key: string;
  readonly repair: string;
  readonly share: number;
  /** Likeliest first; the likeliest few. */
  readonly causes: readonly FoundCause[];
  /** Causes left out of the list. */
  readonly more: number;
  /** A sentence: what was found that speaks for it. */
  readonly because: string;
  /** A sentence: what was found that it does not explain; empty where it explains everything. */
  readonly against: string;
  /** Who may do it; none where nothing is broken. */
  readonly who: readonly Person[];
  /** What is tried after it; empty where nothing is broken. */
  readonly proving: string;
  /** Whether it is put right with covers on and the supply as it is: a dial, cells, a lever. */
  readonly setByHand: boolean;
  /** Whether it takes two faults at once. */
  readonly two: boolean;
  /** Whether it is that nothing is wrong. */
  readonly sound: boolean;
  /** Whether nothing is broken, and something other than usual. */
  readonly asItIs: boolean;
  /** Whether that is a safeguard doing its job. */
  readonly safeguard: boolean;
}

/** What to ask: the observation without its answer. */
export type Asked =
  | { readonly kind: 'look'; readonly mode: string; readonly outcome: string }
  | {
      readonly kind: 'live';
      readonly mode: string;
      readonly from: string;
      readonly to: string;
      readonly instrument: 'tester' | 'multimeter' | 'low-impedance';
      readonly current: 'ac' | 'dc';
    }
  | { readonly kind: 'dead'; readonly mode: string; readonly from: string; readonly to: string }
  | { readonly kind: 'fuse'; readonly mode: string; readonly branch: string }
  | { readonly kind: 'act'; readonly mode: string; readonly id: string };

/** What a sound system shows. */
export interface Due {
  readonly answer: TestAnswer;
  /** Volts or ohms as text; empty where there is no figure to give. */
  readonly figure: string;
}

/** The test to make next, and why. */
export interface NextTest {
  readonly id: string;
  /** Id of the place that must be open for it; null for none. */
  readonly place: string | null;
  readonly asked: Asked;
  /** Whether it was made before and stands alone against the rest. */
  readonly again: boolean;
  /** A sentence: what it is for. */
  readonly why: string;
  readonly minutes: number;
  /** Whether an item must be opened for it. */
  readonly opens: boolean;
  readonly due: Due;
}

/** What may be what was found by the look into a box that came last. */
export interface FoundThere {
  /** Cores that it is at, in words; none where it is at no core. */
  readonly cores: readonly { readonly cable: string; readonly core: string }[];
  readonly repair: FoundRepair;
}

/** What is believed after everything entered. */
export interface Findings {
  readonly repairs: readonly FoundRepair[];
  /** Repairs left out of the list. */
  readonly more: number;
  /** Likeliest first; none where the last entry is no such find, or it is known what it is. */
  readonly foundThere: readonly FoundThere[];
  /** Share of what the entry does not model. */
  readonly notAsShown: number;
  /** Whether what the entry does not model accounts best for it; false while pairs are sought. */
  readonly contradicted: boolean;
  /** Whether the first repair is found: certain enough, and a test would have gone otherwise. */
  readonly found: boolean;
  /** Ids of entries that read against the likeliest, and should be taken again. */
  readonly doubted: readonly string[];
  /** Entries that this version of the system cannot have, with the reason. */
  readonly refused: readonly { readonly id: string; readonly reason: string }[];
  /** Whether no single fault explains what was found, so that pairs must be looked for. */
  readonly wantsPairs: boolean;
  /** Whether pairs are among the repairs. */
  readonly withPairs: boolean;
  /** Observations it is all drawn from. */
  readonly count: number;
}
