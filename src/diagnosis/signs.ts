import {
  type Appearance,
  canShow,
  ISOLATED,
  itemsOfSign,
  type Sign,
  type SignItem,
} from '../../schemas/index.ts';
import type { Network } from '../circuit/index.ts';
import type { Test, TestAnswer } from './tests/index.ts';

/** A test by its place in the list of tests, and the answer that a sign asks of it. */
export interface WantedAnswer {
  readonly test: number;
  readonly answer: TestAnswer;
}

/**
 * The answers by which an appearance of a symptom is known in a system: one for each item
 * and mode that its signs are about. Undefined where the system cannot show them all.
 */
export function answersWanted(
  { signs }: Appearance,
  network: Network,
  tests: readonly Test[],
): WantedAnswer[] | undefined {
  const items = [...network.items].map(([item, { deviceId, device }]) => ({
    item,
    deviceId,
    device,
  }));
  const wanted: WantedAnswer[] = [];
  for (const sign of signs) {
    if (!canShow(sign, items, network.system.modes)) return undefined;
    const own = answersOf(sign, items, tests);
    if (own.length === 0) return undefined;
    wanted.push(...own);
  }
  return wanted;
}

function answersOf(sign: Sign, items: readonly SignItem[], tests: readonly Test[]): WantedAnswer[] {
  const about = new Set(itemsOfSign(sign, items).map(({ item }) => item));
  const answer = answerTo(sign);
  return tests.flatMap((test, i) => {
    const asked =
      'fuse' in sign
        ? test.kind === 'fuse' && about.has(test.item)
        : test.kind === 'look' &&
          sign.modes.includes(test.mode) &&
          [...about].some((item) => test.outcome === `${item}.${sign.outcome}`);
    return asked ? [{ test: i, answer }] : [];
  });
}

function answerTo(sign: Sign): TestAnswer {
  if ('fuse' in sign) return sign.fuse;
  if (sign.is === 'comes and goes') return sign.is;
  return sign.is ? 'seen' : 'not seen';
}

/** Whether a circuit, by its answers to all tests, gives every answer wanted. */
export const givesAll = (
  wanted: readonly WantedAnswer[],
  answers: readonly TestAnswer[],
): boolean => wanted.every(({ test, answer }) => answers[test] === answer);

/** The mode in which whoever sees an appearance stands: the first that its signs name. */
export function modeSeenIn({ signs }: Appearance): string {
  for (const sign of signs) if ('modes' in sign) return sign.modes[0]!;
  return ISOLATED;
}
