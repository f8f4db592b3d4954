import type { Reduced } from './reduce.ts';

/**
 * Partition refinement: bundles that answer alike share a class, and each further test refines
 * the classes, in time linear in the bundles. Hopcroft's and Paige and Tarjan's technique (1971,
 * 1987; from memory), here for answers instead of a relation.
 */

/** Some bundles divided by their answers to one test. */
export interface Partition {
  /** Indices of all tests that divide them so, ascending. */
  readonly tests: readonly number[];
  /** The bundles that answer alike, ascending within each part. */
  readonly parts: readonly (readonly number[])[];
}

/**
 * By pair of label and answer: the label given to it, and the round in which that was. Labels of
 * earlier rounds are void, so that nothing need be cleared between rounds.
 */
let given = new Uint16Array();
let rounds = new Uint32Array();
let round = 0;

/**
 * Refines labels by the answers to one test, in place: two labels stay equal where both the
 * labels and the answers were equal.
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

/** Begins a round in which `pairs` pairs can occur. */
function prepare(pairs: number): void {
  if (pairs > given.length || round === 2 ** 32 - 1) {
    given = new Uint16Array(pairs);
    rounds = new Uint32Array(pairs);
    round = 0;
  }
  round++;
}

/** Labels of all bundles: equal where the answers to all of some tests are equal. */
export function labelsBy(
  count: number,
  tests: readonly { readonly answers: Uint16Array }[],
): Uint16Array {
  const labels = new Uint16Array(count);
  let arity = 1;
  for (const { answers } of tests) arity = refine(labels, arity, answers);
  return labels;
}

/** Codes of the members by the test in hand, and by answer the code given to it. */
const codes = new Uint16Array(65_536);
const codeOf = new Int32Array(65_536);

/**
 * The different partitions of some bundles that some tests make, in order of their first test.
 * @param candidates indices of tests; those that do not divide the bundles are passed over.
 */
export function partitionsOf(
  { tests }: Reduced,
  members: readonly number[],
  candidates: readonly number[],
): Partition[] {
  const count = members.length;
  const found: { codes: Uint16Array; arity: number; tests: number[] }[] = [];
  const byHash = new Map<number, typeof found>();
  for (const index of candidates) {
    const { answers, arity } = tests[index]!;
    const common = answers[members[0]!];
    let at = 1;
    while (at < count && answers[members[at]!] === common) at++;
    if (at === count) continue;
    codeOf.fill(-1, 0, arity);
    let parts = 0;
    let hash = 0;
    for (let i = 0; i < count; i++) {
      const answer = answers[members[i]!]!;
      if (codeOf[answer]! < 0) codeOf[answer] = parts++;
      const code = codeOf[answer]!;
      codes[i] = code;
      hash = (Math.imul(hash, 31) + code) | 0;
    }
    const alike = byHash.get(hash);
    const same = alike?.find((known) => isInHand(known.codes));
    if (same) {
      same.tests.push(index);
      continue;
    }
    const made = { codes: codes.slice(0, count), arity: parts, tests: [index] };
    found.push(made);
    if (alike) alike.push(made);
    else byHash.set(hash, [made]);
  }
  return found.map(({ tests, codes, arity }) => ({ tests, parts: partsOf(members, codes, arity) }));
}

/** Whether codes are those of the test in hand. */
function isInHand(known: Uint16Array): boolean {
  for (let i = 0; i < known.length; i++) if (known[i] !== codes[i]) return false;
  return true;
}

/** Members by their codes, one array for each code. */
export function partsOf(
  members: readonly number[],
  codeOfMember: ArrayLike<number>,
  arity: number,
): number[][] {
  const parts: number[][] = [];
  for (let code = 0; code < arity; code++) parts.push([]);
  for (let i = 0; i < members.length; i++) parts[codeOfMember[i]!]!.push(members[i]!);
  return parts;
}
