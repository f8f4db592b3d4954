import {
  INSTRUMENTS,
  isExtraLow,
  type ReadingClass,
  readClass,
  readVolts,
  type Solution,
} from '../circuit/index.ts';
import type { TestPair } from '../wiring/index.ts';

/** What an engineer answers to a test: the class of a mains reading, or DC present or not. */
export type Answer = ReadingClass | 'dc' | 'no dc';

/** The instrument sequences are worked out for: the two-pole tester. */
export const SEQUENCE_INSTRUMENT = INSTRUMENTS[0]!;

/**
 * The answer that reading a pair gives. A call pair is read in volts DC, everything else in
 * volts AC.
 */
export function liveAnswer(solution: Solution, { kind, from, to }: TestPair): Answer {
  if (kind !== 'call') return readClass(solution, from, to, SEQUENCE_INSTRUMENT);
  const direct = readVolts(solution, from, to, SEQUENCE_INSTRUMENT, 'dc');
  return isExtraLow(direct) ? 'dc' : 'no dc';
}
