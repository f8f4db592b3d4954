import {
  INSTRUMENTS,
  isExtraLow,
  type Reading,
  read,
  type Seen,
  type Simulation,
} from '../../circuit/index.ts';
import { itemOf } from '../points.ts';
import { type TestPair, testPairs } from '../test-pairs.ts';

/** One outcome of one mode, as the entry has it and as it is. */
export interface OutcomePair {
  /** `E1.burner`. */
  readonly outcome: string;
  readonly due: Seen;
  readonly found: Seen;
}

/** One reading of one mode on the two-pole tester, as the entry has it and as it is. */
export interface ReadingPair {
  readonly pair: TestPair;
  readonly due: Reading;
  readonly found: Reading;
}

/** One mode of a circuit as found beside the same mode of its entry. */
export interface ModePair {
  readonly mode: string;
  /** Outcomes that differ. */
  readonly changed: readonly OutcomePair[];
  /** Outcomes that are so in both: what still works. */
  readonly works: readonly string[];
  /** Readings of another class. */
  readonly readings: readonly ReadingPair[];
  /** Fuses and breakers open in it that the entry has closed, by branch id. */
  readonly blown: readonly string[];
}

const TESTER = INSTRUMENTS[0]!;

/** What a reading tells of a pair: its class, or whether there is a call voltage. */
export const tellingOf = ({ kind }: TestPair, reading: Reading): string =>
  kind === 'call' ? (isExtraLow(reading.dc) ? 'dc' : 'no dc') : reading.class;

/**
 * Every mode of a circuit as found beside the intended one. Readings are those of the
 * entry's test pairs; an item that is not there has neither outcomes nor readings.
 * @param found as an engineer finds it: what any mode blows is blown.
 */
export function compareModes(
  intended: Simulation,
  found: Simulation,
  absent: readonly string[] = [],
): ModePair[] {
  const there = (id: string) => !absent.includes(itemOf(id));
  const dueIn = dueReadings(intended);
  return [...intended.modes].map(([mode, due]) => {
    const now = found.modes.get(mode)!;
    const outcomes = [...due.outcomes]
      .filter(([outcome]) => there(outcome))
      .map(([outcome, seen]) => ({
        outcome,
        due: seen,
        found: now.outcomes.get(outcome) ?? false,
      }));
    return {
      mode,
      changed: outcomes.filter((o) => o.due !== o.found),
      works: outcomes.filter((o) => o.due === true && o.found === true).map((o) => o.outcome),
      readings: dueIn
        .get(mode)!
        .filter(({ pair: { from, to } }) => there(from) && there(to))
        .map(({ pair, due: own }) => ({
          pair,
          due: own,
          found: read(now.solution, pair.from, pair.to, TESTER),
        }))
        .filter(({ pair, due: a, found: b }) => tellingOf(pair, a) !== tellingOf(pair, b)),
      blown: [...now.state.blown].filter((id) => !due.state.blown.has(id)),
    };
  });
}

type DueReading = Pick<ReadingPair, 'pair' | 'due'>;

/** Readings of an intended circuit by mode: many circuits as found are held against one. */
const known = new WeakMap<Simulation, ReadonlyMap<string, readonly DueReading[]>>();

function dueReadings(intended: Simulation): ReadonlyMap<string, readonly DueReading[]> {
  const made = known.get(intended);
  if (made) return made;
  const pairs = testPairs(intended.network);
  const readings = new Map(
    [...intended.modes].map(([mode, { solution }]) => [
      mode,
      pairs.map((pair) => ({ pair, due: read(solution, pair.from, pair.to, TESTER) })),
    ]),
  );
  known.set(intended, readings);
  return readings;
}

/** Whether every reading and outcome of two circuits agrees, class by class, in every mode. */
export const agree = (a: Simulation, b: Simulation): boolean =>
  compareModes(a, b).every(
    ({ changed, readings, blown }) =>
      changed.length === 0 && readings.length === 0 && blown.length === 0,
  );
