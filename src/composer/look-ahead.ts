import {
  type Catalogue,
  type Composed,
  compose,
  Refusal,
  type RefusalReason,
} from '../compose/index.ts';
import type { Answers, Questions } from './questions.ts';
import { specificationFor } from './specification.ts';

/** Arrangements without a circuit that are tried at most; beyond, some other may have one. */
const MOST_TRIED = 1500;

/**
 * Arrangements that some answers may still become, one after another: every way of answering what
 * is open, but for what may be left as usual, and further circuits, which are taken as the first.
 * Between them stands why an arrangement on the way has no circuit.
 */
export function* arrangementsFrom(
  answers: Answers,
  questions: Questions,
  catalogue: Catalogue,
): Generator<Composed | RefusalReason> {
  const question = questions.next(answers);
  if (!question) {
    yield composedOr(answers, questions, catalogue);
    return;
  }
  const { id, options, usual } = question;
  const asFirst = /-\d$/.test(id) ? answers[id.replace(/\d$/, '1')] : undefined;
  const only = usual ?? options.find((option) => option.id === asFirst)?.id;
  for (const answer of only === undefined ? options.map((option) => option.id) : [only])
    yield* arrangementsFrom({ ...answers, [id]: answer }, questions, catalogue);
}

function composedOr(
  answers: Answers,
  questions: Questions,
  catalogue: Catalogue,
): Composed | RefusalReason {
  try {
    return compose(specificationFor(questions, answers), catalogue);
  } catch (error) {
    if (error instanceof Refusal) return error.reason;
    throw error;
  }
}

/** Why some answers lead to no circuit; undefined where they lead to one, or too far to say. */
export function refusalOf(
  answers: Answers,
  questions: Questions,
  catalogue: Catalogue,
): RefusalReason | undefined {
  let first: RefusalReason | undefined;
  let tried = 0;
  for (const one of arrangementsFrom(answers, questions, catalogue)) {
    if (typeof one !== 'string') return undefined;
    first ??= one;
    tried += 1;
    if (tried >= MOST_TRIED) return undefined;
  }
  return first;
}
