/** Label given to a pair, and the round in which it was given: older ones count for none. */
let given = new Uint16Array();
let rounds = new Uint32Array();
let round = 0;

/**
 * Splits labels further by some answers, in place: two stay equal where both labels and
 * answers were.
 *
 * @param labels numbered from 0; one for each member.
 * @param arity how many different labels there are.
 * @param answers of all bundles, each numbered from 0 and so less than their number.
 * @param members bundles whose labels these are; all bundles when left out.
 * @returns how many different labels there are then.
 */
export function refine(
  labels: Uint16Array,
  arity: number,
  answers: Uint16Array,
  members?: readonly number[],
): number {
  if (arity === labels.length) return arity;
  prepare(arity * answers.length);
  let count = 0;
  for (let i = 0; i < labels.length; i++) {
    const pair = answers[members ? members[i]! : i]! * arity + labels[i]!;
    if (rounds[pair] !== round) {
      rounds[pair] = round;
      given[pair] = count++;
    }
    labels[i] = given[pair]!;
  }
  return count;
}

/** Forgets the labels given to pairs, of which there may be so many. */
function prepare(pairs: number): void {
  if (pairs > given.length || round === 2 ** 32 - 1) {
    given = new Uint16Array(pairs);
    rounds = new Uint32Array(pairs);
    round = 0;
  }
  round++;
}

/** Labels of all bundles, equal where the answers to some tests are. */
export function labelled(
  count: number,
  tests: readonly { readonly answers: Uint16Array }[],
): Uint16Array {
  const labels = new Uint16Array(count);
  let arity = 1;
  for (const { answers } of tests) arity = refine(labels, arity, answers);
  return labels;
}
