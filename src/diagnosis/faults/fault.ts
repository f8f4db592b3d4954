import type { Network } from '../../circuit/index.ts';
import type { Source } from '../../published/index.ts';
import type { Edit } from './edit.ts';
import type { WeightClass } from './weights.ts';

/** Whether a part failed, a connection came apart, or somebody wired it so. */
export type Origin = 'part' | 'connection' | 'wiring mistake';

/** One change to a circuit that makes it other than its entry says. */
export interface Fault {
  /** Stable, as in `E1/board:dead` or `W3.BN@2:loose`. */
  readonly id: string;
  readonly origin: Origin;
  /** In plain words, as in `E1 control board dead`. */
  readonly title: string;
  /** What mends it, in plain words. */
  readonly repair: string;
  /** Faults that the same repair mends have the same key. */
  readonly repairKey: string;
  /** What danger it makes; null when it makes none beyond a system that does not work. */
  readonly hazard: string | null;
  /** How likely beside the others, relative; orders of magnitude only. */
  readonly weight: number;
  /** The kind that its weight is of, or is a part of. */
  readonly class: WeightClass;
  readonly source: Source;
  /** What it alters; edits of two faults compose, see `editedCircuit`. */
  readonly edit: Edit;
  /** Builds the circuit with this fault. */
  readonly circuit: () => Network;
}
