import type { Simulation } from '../../circuit/index.ts';
import type { TestPair } from '../../wiring/index.ts';
import { type FamilyShares, type Fault, faultsOf } from '../faults/index.ts';
import type { CompactSettledStates } from '../settled-states.ts';
import type { Signatures } from '../signatures.ts';
import { type Test, type TestAnswer, testsOf } from '../tests/index.ts';
import { type CircumstanceRow, circumstanceRows } from './circumstances.ts';
import { ANSWERS, rowCodes, rowText } from './codes.ts';

/**
 * What every test answers with every fault, small enough to send to a phone: plain JSON.
 * Built once with the site; a case on site then ranks every listed test without simulating.
 */
export interface CompactSignatures extends CompactRows {
  /** What is other than usual and nothing broken, each with its row as text. */
  readonly circumstances: readonly CircumstanceRow[];
  /** Where the circuit of each fault comes to rest. */
  readonly settled: CompactSettledStates;
  /**
   * Only while not every fault and circumstance has its row: of those without, the codes of what
   * was looked at, by their id and the question's key.
   */
  readonly soFar?: Readonly<Record<string, Readonly<Record<string, number>>>>;
}

/** What every test answers with every fault. */
export interface CompactRows {
  /** Test ids; a row has one digit for each, see `rowText`. */
  readonly tests: readonly string[];
  /** The different rows of answers; the first is the sound system's. */
  readonly rows: readonly string[];
  /** Every fault with the index of its row; a fault that changes no answer has row 0. */
  readonly faults: readonly (readonly [id: string, row: number])[];
}

/** Packs a system's signatures. */
export function compactSignatures(
  simulation: Simulation,
  signatures: Signatures,
): CompactSignatures {
  return {
    ...compactRows(signatures),
    circumstances: circumstanceRows(simulation, signatures.tests, rowText(signatures.sound)),
    settled: signatures.settled,
  };
}

/**
 * The signatures that were packed; nothing is simulated.
 * @param families how often each family is met; the table's own shares unless given
 * @throws RangeError where they are of another system, or of other tests or faults than today's
 */
export function signaturesFrom(
  { rows, faults: packed, tests: ids, settled }: CompactSignatures,
  simulation: Simulation,
  pairs: readonly TestPair[],
  families?: FamilyShares,
): Signatures {
  const tests = testsOf(simulation, pairs);
  const known = faultsOf(simulation, families);
  const rowOf = new Map(packed);
  if (
    !isSameList(ids, tests) ||
    known.length !== rowOf.size ||
    known.some(({ id }) => !rowOf.has(id))
  )
    throw new RangeError(`these signatures are not of ${simulation.network.id} as it is now`);
  const answers = rows.map((row) =>
    Array.from(rowCodes(row), (code): TestAnswer => ANSWERS[code]!),
  );
  const isSilent = ({ id }: Fault) => rowOf.get(id) === 0;
  return {
    tests,
    sound: answers[0]!,
    faults: known
      .filter((fault) => !isSilent(fault))
      .map((fault) => ({ fault, answers: answers[rowOf.get(fault.id)!]! })),
    silent: known.filter(isSilent),
    settled,
  };
}

const isSameList = (ids: readonly string[], tests: readonly Test[]): boolean =>
  ids.length === tests.length && tests.every(({ id }, at) => id === ids[at]);

/** Packs what every test answers with every fault. */
export function compactRows(signatures: Signatures): CompactRows {
  const sound = rowText(signatures.sound);
  const rows = new Map([[sound, 0]]);
  const rowOf = (text: string) => {
    const known = rows.get(text);
    if (known !== undefined) return known;
    rows.set(text, rows.size);
    return rows.size - 1;
  };
  return {
    tests: signatures.tests.map(({ id }) => id),
    faults: [
      ...signatures.faults.map(
        ({ fault, answers }) => [fault.id, rowOf(rowText(answers))] as const,
      ),
      ...signatures.silent.map(({ id }) => [id, 0] as const),
    ],
    rows: [...rows.keys()],
  };
}
