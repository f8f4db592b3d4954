import type { TestAnswer } from '../tests/index.ts';

/**
 * Every answer a test can give, with its code. Published data hold the codes: new answers
 * go to the end.
 */
export const ANSWER_CODES = {
  live: 0,
  dead: 1,
  between: 2,
  high: 3,
  dc: 4,
  'no dc': 5,
  seen: 6,
  'not seen': 7,
  'comes and goes': 8,
  joined: 9,
  resistance: 10,
  open: 11,
  intact: 12,
  blown: 13,
  'wrong rating': 14,
  unsettled: 15,
  nothing: 16,
  found: 17,
  'no short': 18,
} as const satisfies Record<TestAnswer, number>;

/** Answers by code. */
export const ANSWERS = Object.keys(ANSWER_CODES) as readonly TestAnswer[];

/** Answers that one question can have: the code of the first, and how many follow on. */
export interface Alphabet {
  readonly first: number;
  readonly size: number;
}

export const LOOK: Alphabet = { first: ANSWER_CODES.seen, size: 3 };
export const ALTERNATING: Alphabet = { first: ANSWER_CODES.live, size: 4 };
export const DIRECT: Alphabet = { first: ANSWER_CODES.dc, size: 2 };
export const DEAD: Alphabet = { first: ANSWER_CODES.joined, size: 3 };
export const INSULATION: Alphabet = { first: ANSWER_CODES.resistance, size: 2 };
export const INSPECT: Alphabet = { first: ANSWER_CODES.nothing, size: 2 };
export const PROVE: Alphabet = { first: ANSWER_CODES.live, size: 2 };
export const FUSE: Alphabet = { first: ANSWER_CODES.intact, size: 3 };

/** One row of answers as text: one base-36 digit a test, its code. */
export const rowText = (answers: readonly TestAnswer[]): string =>
  answers.map((answer) => ANSWER_CODES[answer].toString(36)).join('');

/** The codes of a row's text. */
export function rowCodes(text: string): Uint8Array {
  const codes = new Uint8Array(text.length);
  for (let at = 0; at < text.length; at++) codes[at] = DIGITS.get(text.charCodeAt(at)) ?? 0;
  return codes;
}

/** Base-36 digits by their character codes: looked up, as there are millions of them. */
const DIGITS = new Map(
  Array.from({ length: 36 }, (_, code) => [code.toString(36).charCodeAt(0), code] as const),
);

const worded = new WeakMap<Uint8Array, readonly TestAnswer[]>();

/** A row in words. */
export function answersOf(row: Uint8Array): readonly TestAnswer[] {
  const known = worded.get(row);
  if (known) return known;
  const answers = Array.from(row, (code) => ANSWERS[code]!);
  worded.set(row, answers);
  return answers;
}
