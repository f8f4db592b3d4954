import type { Reduced } from './reduce.ts';

/** One way in which tests split some bundles. */
export interface Split {
  /** Indices of the tests that split so, ascending. */
  readonly tests: readonly number[];
  /** The bundles that answer alike, ascending within each part. */
  readonly parts: readonly (readonly number[])[];
}

const codes = new Uint16Array(65_536);
const codeOf = new Int32Array(65_536);

/**
 * The different ways in which some tests split some bundles, in order of their first test.
 * @param candidates indices of tests; those that split nothing are passed over.
 */
export function splitsOf(
  { tests }: Reduced,
  members: readonly number[],
  candidates: readonly number[],
): Split[] {
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
    const same = alike?.find((split) => isCurrent(split.codes));
    if (same) {
      same.tests.push(index);
      continue;
    }
    const split = { codes: codes.slice(0, count), arity: parts, tests: [index] };
    found.push(split);
    if (alike) alike.push(split);
    else byHash.set(hash, [split]);
  }
  return found.map((split) => ({
    tests: split.tests,
    parts: partsOf(members, split.codes, split.arity),
  }));
}

function isCurrent(known: Uint16Array): boolean {
  for (let i = 0; i < known.length; i++) if (known[i] !== codes[i]) return false;
  return true;
}

/** Members by code, each part in its own array. */
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
