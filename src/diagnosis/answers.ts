import {
  INSTRUMENTS,
  type Instrument,
  isExtraLow,
  type ReadingClass,
  readClass,
  readVolts,
  type Solution,
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

/**
 * The answer that reading a pair gives. A call pair is read in volts DC, everything else in
 * volts AC.
 */
export function liveAnswer(solution: Solution, pair: TestPair): Answer {
  const { kind, from, to } = pair;
  if (kind !== 'call') return readClass(solution, from, to, instrumentFor(pair));
  const direct = readVolts(solution, from, to, instrumentFor(pair), 'dc');
  return isExtraLow(direct) ? 'dc' : 'no dc';
}
