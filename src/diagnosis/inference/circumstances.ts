import type { Network, Simulation } from '../../circuit/index.ts';
import { lowerFirst } from '../../words/index.ts';
import { type Circumstance, circumstancesOf, settleUnder } from '../no-fault.ts';
import { answerIn, type Test } from '../tests/index.ts';
import { rowText } from './codes.ts';
import type { Hypothesis } from './hypothesis.ts';

/** A circumstance by id, with what every listed test then answers; null until it is worked out. */
export type CircumstanceRow = readonly [id: string, row: string | null];

/**
 * What every test answers where nothing is broken and one thing is other than its modes take
 * it to be; without those that change no answer.
 */
export function circumstanceRows(
  { network, modes }: Simulation,
  tests: readonly Test[],
  sound: string,
): CircumstanceRow[] {
  return circumstancesOf(network).flatMap((circumstance): CircumstanceRow[] => {
    const row = circumstanceRow({ network, modes }, tests, circumstance);
    return row === sound ? [] : [[circumstance.id, row]];
  });
}

/** The same of one circumstance, as text. */
export const circumstanceRow = (
  { network, modes }: Pick<Simulation, 'network' | 'modes'>,
  tests: readonly Test[],
  circumstance: Circumstance,
): string => {
  const then = settleUnder(network, [...modes.keys()], circumstance);
  return rowText(tests.map((test) => answerIn(then, test)));
};

/** A circumstance as something that explains what was found. */
export const circumstanceHypothesis = (
  network: Network,
  circumstance: Circumstance,
  prior: number,
  row: Uint8Array | null,
): Hypothesis => ({
  id: circumstance.id,
  faults: [],
  circumstance,
  title: `No fault: ${lowerFirst(circumstance.title)} (${circumstance.item})`,
  repairKey: `as it is ${circumstance.id}`,
  repair: whatToDo(network, circumstance),
  prior,
  row,
});

/** What to do about it, in plain words. */
function whatToDo(network: Network, { item, safeguard }: Circumstance): string {
  const { family } = network.items.get(item)!.device;
  if (family === 'isolation' || family === 'supply')
    return `Find out who switched ${item} off, and why, before it is switched on again: somebody may be at work on the circuit.`;
  if (safeguard)
    return `${item} is doing its job. Find out what made it act and put that right; only then reset it, where it has a reset. Never bridge it.`;
  return `Put it right at ${item}, or wait until it is over, and look again before anything is opened.`;
}
