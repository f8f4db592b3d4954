import type { Person } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import type { Source } from '../../published/index.ts';
import type { Edit } from './edit.ts';
import type { Family, FaultKind, History } from './families.ts';

/**
 * Whether a part failed, a connection came apart, somebody wired it so, or something is only
 * set, flat or lost.
 */
export type Origin = 'part' | 'connection' | 'wiring mistake' | 'setting';

/** What puts a fault right: the smallest part, by whom, and how that is proved. */
export interface Repair {
  /** In plain words. */
  readonly repair: string;
  /** Faults that the same repair puts right have the same key. */
  readonly repairKey: string;
  /** What is tried after it, in plain words. */
  readonly proving: string;
  /** Who may do it. */
  readonly who: Person;
}

/** A fault before its share among the others of its system is known. */
export interface Draft extends Repair {
  /** Stable, as in `E1:no display` or `W3.BN@2:loose`. */
  readonly id: string;
  readonly origin: Origin;
  /** In plain words, as in `Boiler E1: no display with its supply present`. */
  readonly title: string;
  /** What danger it makes; null when it makes none beyond a system that does not work. */
  readonly hazard: string | null;
  /** The kind that its share is a part of. */
  readonly class: FaultKind;
  /** Its part of the kind's share beside the kind's other instances; 1 unless given. */
  readonly portion?: number;
  /** What it alters; edits of two faults compose, see `editedCircuit`. */
  readonly edit: Edit;
  /** Builds the circuit with this fault. */
  readonly circuit: () => Network;
}

/** One change to a circuit that makes it other than its entry says. */
export interface Fault extends Omit<Draft, 'portion'> {
  readonly family: Family;
  /** Its share of all faults of its system, by history: each history's shares add up to 1. */
  readonly shares: Readonly<Record<History, number>>;
  /** Its share where the system worked until now. */
  readonly weight: number;
  /**
   * Chance that one look or reading finds it behaving well where it comes and goes; null where
   * it does not come and go.
   */
  readonly intermittent: number | null;
  readonly source: Source;
}
