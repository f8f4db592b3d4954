import {
  INSTRUMENTS,
  isExtraLow,
  type Reading,
  type ReadingClass,
  read,
  type Settled,
} from '../circuit/index.ts';
import type { TestPair } from '../wiring/index.ts';

/** What an engineer answers to a test: the class of a mains reading, or DC present or not. */
export type Answer = ReadingClass | 'dc' | 'no dc';

/** The instrument sequences are worked out for: the two-pole tester. */
export const SEQUENCE_INSTRUMENT = INSTRUMENTS[0]!;

/** The reading of a pair in a settled mode on the sequence's instrument. */
export function readingOf(settled: Settled, pair: TestPair): Reading {
  return read(settled.solution, pair.from, pair.to, SEQUENCE_INSTRUMENT);
}

/** The answer a reading gives. A call pair is read in volts DC, everything else in volts AC. */
export function answerOf(pair: TestPair, reading: Reading): Answer {
  if (pair.kind === 'call') return isExtraLow(reading.dc) ? 'dc' : 'no dc';
  return reading.class;
}
