import type { Simulation } from '../../circuit/index.ts';
import type { Signatures } from '../signatures.ts';
import { type CircumstanceRow, circumstanceRows } from './circumstances.ts';
import { rowText } from './codes.ts';
import type { CompactRests } from './rests.ts';

/**
 * What every test answers with every fault, small enough to send to a phone: plain JSON.
 * Built once with the site; a case on site then ranks every listed test without simulating.
 */
export interface CompactSignatures extends CompactRows {
  /** What is other than usual and nothing broken, each with its row as text. */
  readonly circumstances: readonly CircumstanceRow[];
  /** Where each circuit comes to rest; without it that is worked out when first needed. */
  readonly rests?: CompactRests;
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

/** Packs a system's signatures, with the rests of its circuits where they are given. */
export function compactSignatures(
  simulation: Simulation,
  signatures: Signatures,
  rests?: CompactRests,
): CompactSignatures {
  return {
    ...compactRows(signatures),
    circumstances: circumstanceRows(simulation, signatures.tests, rowText(signatures.sound)),
    ...(rests ? { rests } : {}),
  };
}

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
