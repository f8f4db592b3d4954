import { ANSWER_CODES, type Order, type OrderTree } from '../inference/index.ts';
import type { Start } from './complaint.ts';
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
    history: start.history,
    shows: start.shows.map((shown) =>
      shown.map(({ test, answer }) => [test, ANSWER_CODES[answer]] as const),
    ),
    tree: tree(first),
  };
}
