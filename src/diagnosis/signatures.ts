import { type Simulation, simulateAsFound } from '../circuit/index.ts';
import { settledIn, situationsOf } from '../site/index.ts';
import type { TestPair } from '../wiring/index.ts';
import { type Fault, faultsOf } from './faults/index.ts';
import { type CompactSettledStates, SettledStatesPacker } from './settled-states.ts';
import { answerIn, type Test, type TestAnswer, testsOf } from './tests/index.ts';

/** A fault with what every test answers in its circuit. */
export interface Signature {
  readonly fault: Fault;
  /** By place in the list of tests. */
  readonly answers: readonly TestAnswer[];
}

/** Everything a system's faults show. */
export interface Signatures {
  readonly tests: readonly Test[];
  /** What every test answers in the sound circuit. */
  readonly sound: readonly TestAnswer[];
  readonly faults: readonly Signature[];
  /** Faults that change no answer: only a look at the part itself finds them. */
  readonly silent: readonly Fault[];
  /** Where the circuit of every fault comes to rest in every mode. */
  readonly settled: CompactSettledStates;
}

/**
 * Simulates every fault of a system in every mode, once, and notes what every test answers and
 * where the circuit rests.
 */
export function signaturesOf(simulation: Simulation, pairs: readonly TestPair[]): Signatures {
  const tests = testsOf(simulation, pairs);
  const sound = tests.map((test) => answerIn(simulation, test));
  const faults: Signature[] = [];
  const silent: Fault[] = [];
  const situations = situationsOf(simulation.network);
  const settled = new SettledStatesPacker(situations.map(({ id }) => id));
  for (const fault of faultsOf(simulation)) {
    const found = simulateAsFound(fault.circuit());
    const answers = tests.map((test) => answerIn(found, test));
    settled.add(
      fault.id,
      situations.map((situation) => settledIn(found, situation).round),
    );
    if (answers.every((answer, i) => isAlike(answer, sound[i]!))) silent.push(fault);
    else faults.push({ fault, answers });
  }
  return { tests, sound, faults, silent, settled: settled.packed() };
}

/** Whether two answers may be one: what is unsettled tells nothing from anything. */
const isAlike = (a: TestAnswer, b: TestAnswer): boolean =>
  a === b || a === 'unsettled' || b === 'unsettled';
