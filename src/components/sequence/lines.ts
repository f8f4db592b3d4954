import type { Step, TestSequence } from '../../diagnosis/sequences/index.ts';
import type { ComputedSystem } from '../../reference/index.ts';
import { endText, OF_NO_SYMPTOM, stepAnswerWords, testText } from './words.ts';

/** A step as one line on paper. */
export interface Line {
  /** Mode to bring about; empty where the step before left it so. */
  readonly mode: string;
  readonly test: string;
  /** Each answer with the number of the step, or the fault, that it leads to. */
  readonly answers: readonly { readonly answer: string; readonly leads: string }[];
}

/** Letters that stand in one of the three columns beside each other, at the sheet's own size. */
const LETTERS = 52;

/** A sequence as the lines of a printed sheet. */
export function linesOf(system: ComputedSystem, sequence: TestSequence): Line[] {
  const { steps, ends } = sequence;
  const line = ({ test, changesMode, number, answers }: Step): Line => ({
    mode: changesMode || number === 1 ? system.network.system.modes[test.mode]!.title : '',
    test: testText(system, test),
    answers: answers.map((one) => ({
      answer: one.finds === null ? stepAnswerWords(system, sequence, test, one) : 'found',
      leads: one.next.kind === 'step' ? `${one.next.number}` : endText(ends[one.next.number - 1]!),
    })),
  });
  return steps.map(line);
}

/** Rows of print that a sequence takes: what decides whether a sheet has room for it. */
export function rowsOf(system: ComputedSystem, sequence: TestSequence): number {
  const letters = ({ mode, test, answers }: Line) =>
    answers.reduce(
      (sum, { answer, leads }) => sum + answer.length + leads.length + ' · : '.length,
      test.length + (mode === '' ? 0 : mode.length + ': '.length),
    );
  return linesOf(system, sequence).reduce(
    (rows, line) => rows + Math.ceil(letters(line) / LETTERS),
    0,
  );
}

/** Whether a sequence starts from a symptom, and not from anything or nothing seen. */
export const isOfSymptom = ({ id }: TestSequence): boolean => !OF_NO_SYMPTOM.includes(id);

/** A system's sequences: of symptoms first, those met most often, by the weights of their faults. */
export function mostMetFirst({ starts, sequences }: ComputedSystem): TestSequence[] {
  const weights = new Map(
    starts.map(({ id, open }) => [id, open.reduce((sum, { weight }) => sum + weight, 0)]),
  );
  return sequences.toSorted(
    (a, b) =>
      Number(isOfSymptom(b)) - Number(isOfSymptom(a)) || weights.get(b.id)! - weights.get(a.id)!,
  );
}

/**
 * The complaint that a system gives most often.
 * @param room rows of print there is room for: longer sequences are passed over.
 */
export const mostMet = (system: ComputedSystem, room: number): TestSequence | undefined =>
  mostMetFirst(system).find(
    (one) => isOfSymptom(one) && one.steps.length > 0 && rowsOf(system, one) <= room,
  );
