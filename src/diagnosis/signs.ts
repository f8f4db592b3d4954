import { type Appearance, canShow, ISOLATED, itemsOfSign, type Sign } from '../../schemas/index.ts';
import type { Network } from '../circuit/index.ts';
import type { Test, TestAnswer } from './tests/index.ts';

/** A test by its place in the list of tests, and the answer that a sign asks of it. */
export interface WantedAnswer {
  readonly test: number;
  readonly answer: TestAnswer;
}

/**
 * The answers by which an appearance of a symptom is known in a system: one for each item
 * and mode that its signs are about. A list for each way in which it is: a sign at any one of
 * several items is known at each of them. None where the system cannot show all signs.
 */
export function answersWanted(
  { signs }: Appearance,
  network: Network,
  tests: readonly Test[],
): WantedAnswer[][] {
  const items = [...network.items].map(([item, { deviceId, device }]) => ({
    item,
    deviceId,
    device,
  }));
  let ways: WantedAnswer[][] = [[]];
  for (const sign of signs) {
    if (!canShow(sign, items, network.system.modes)) return [];
    const about = itemsOfSign(sign, items).map(({ item }) => item);
    const groups = 'any' in sign && sign.any ? about.map((item) => [item]) : [about];
    const own = groups
      .map((group) => answersOf(sign, new Set(group), tests))
      .filter((answers) => answers.length > 0);
    ways = ways.flatMap((way) => own.map((answers) => [...way, ...answers]));
  }
  return ways;
}

function answersOf(sign: Sign, about: ReadonlySet<string>, tests: readonly Test[]): WantedAnswer[] {
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
