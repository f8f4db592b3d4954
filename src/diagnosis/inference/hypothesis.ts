import { lowerFirst } from '../../words/index.ts';
import type { Fault } from '../faults/index.ts';
import type { Circumstance } from '../no-fault.ts';

/**
 * What may explain what an engineer found: nothing wrong, nothing broken but one thing other
 * than the modes take it to be, one fault, or two at once.
 * That the system is not wired as its entry shows is no hypothesis of this kind: it has no
 * circuit, and predicts nothing.
 */
export interface Hypothesis {
  /** Fault ids joined by ` + `; a circumstance's; `sound` for none. */
  readonly id: string;
  readonly faults: readonly Fault[];
  /** What is other than usual where nothing is broken. */
  readonly circumstance?: Circumstance;
  readonly title: string;
  /** What mends it; hypotheses with one key need not be told apart. */
  readonly repairKey: string;
  readonly repair: string;
  /** Prior probability, before anything is seen. */
  readonly prior: number;
  /** What every listed test answers, by code; null where only what was asked is known. */
  readonly row: Uint8Array | null;
}

export const SOUND = 'sound';

/** Nothing wrong that a test could find. */
export const soundHypothesis = (prior: number, row: Uint8Array): Hypothesis => ({
  id: SOUND,
  faults: [],
  title: 'No fault: everything as it should be',
  repairKey: SOUND,
  repair: 'Nothing found to repair here: ask again what the customer saw, and when.',
  prior,
  row,
});

/** One fault. */
export const single = (fault: Fault, prior: number, row: Uint8Array | null): Hypothesis => ({
  id: fault.id,
  faults: [fault],
  title: fault.title,
  repairKey: fault.repairKey,
  repair: fault.repair,
  prior,
  row,
});

/** Two faults at once. */
export const both = (
  a: Hypothesis,
  b: Hypothesis,
  prior: number,
  row: Uint8Array | null,
): Hypothesis => ({
  id: `${a.id} + ${b.id}`,
  faults: [...a.faults, ...b.faults],
  title: `${a.title}, and ${lowerFirst(b.title)}`,
  repairKey: [a.repairKey, b.repairKey].sort().join(' + '),
  repair: `${a.repair} Then: ${lowerFirst(b.repair)}`,
  prior,
  row,
});
