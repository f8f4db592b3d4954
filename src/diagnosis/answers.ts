import {
  INSTRUMENTS,
  type Instrument,
  isExtraLow,
  type Reading,
  type ReadingClass,
  read,
  type Settled,
} from '../circuit/index.ts';
import type { TestPair } from '../wiring/index.ts';

/** What an engineer answers to a test: the class of a mains reading, or DC present or not. */
export type Answer = ReadingClass | 'dc' | 'no dc';

const [tester, , loaded] = INSTRUMENTS as readonly [Instrument, Instrument, Instrument];

/**
 * The instrument that a step is worked out for. A line to its neutral is read under load, which
 * ghost volts do not survive; to earth it is not, where a load may trip an RCD.
 */
export const instrumentFor = ({ kind }: Pick<TestPair, 'kind'>): Instrument =>
  kind === 'line' ? loaded : tester;

/** The reading of a pair in a settled mode on the instrument that answers. */
export function readingOf(settled: Settled, pair: TestPair): Reading {
  return read(settled.solution, pair.from, pair.to, instrumentFor(pair));
}

/** The answer a reading gives. A call pair is read in volts DC, everything else in volts AC. */
export function answerOf(pair: TestPair, reading: Reading): Answer {
  if (pair.kind === 'call') return isExtraLow(reading.dc) ? 'dc' : 'no dc';
  return reading.class;
}
