import { ANSWER_CODES, type Order, type OrderTree } from '../inference/index.ts';
import type { ChanceStep } from '../planning/index.ts';
import type { TestAnswer } from '../tests/index.ts';
import { ANYTHING, type Start } from './complaint.ts';
import type { Next, TestSequence } from './sequence.ts';

/**
 * A sequence packed for a phone, which follows it.
 *
 * @param tests ids of the system's list of tests.
 */
export function orderOf(
  start: Start,
  { steps, first }: TestSequence,
  tests: readonly string[],
): Order {
  const placeOf = new Map(tests.map((id, at) => [id, at]));
  const tree = ({ kind, number }: Next): OrderTree => {
    if (kind === 'end') return 0;
    const { test, answers } = steps[number - 1]!;
    // Whoever finds something has come to the end, whatever it is.
    const going = answers.filter(({ next }) => next.kind === 'step');
    return [
      placeOf.get(test.id)!,
      ...going.map(({ answer, next }) => [ANSWER_CODES[answer], tree(next)] as const),
    ];
  };
  return {
    id: start.id,
    history: start.history,
    shows: start.shows.map((shown) =>
      shown.map(({ test, answer }) => [test, ANSWER_CODES[answer]] as const),
    ),
    tree: tree(first),
  };
}

/**
 * What to do about what comes and goes, packed: from no complaint, each test after the one before
 * it while all answers as in a sound system.
 *
 * @param tests ids of the system's list of tests.
 * @param sound what each of them answers in the sound system.
 */
export function chanceOrderOf(
  steps: readonly ChanceStep[],
  tests: readonly string[],
  sound: readonly TestAnswer[],
): Order {
  const placeOf = new Map(tests.map((id, at) => [id, at]));
  const places = steps.flatMap((step) => step.tests.map(({ id }) => placeOf.get(id)!));
  const tree = places
    .filter((at) => sound[at] !== 'unsettled')
    .reduceRight<OrderTree>((next, at) => [at, [ANSWER_CODES[sound[at]!], next]], 0);
  return { id: ANYTHING, history: 'comes and goes', shows: [[]], tree };
}
