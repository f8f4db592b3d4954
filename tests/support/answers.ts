import type { TestAnswer } from '../../src/diagnosis/tests/index.ts';

/** Whether a reading given is the one named: no short is any ohms but those of a short. */
export const isAnswer = (named: string, given: string): boolean =>
  named === given || (named === 'no short' && given !== 'joined');

/** Whether two answers may be one on site: what is unsettled is told from nothing. */
export const mayBeAlike = (a: TestAnswer, b: TestAnswer): boolean =>
  a === 'unsettled' || b === 'unsettled' || isAnswer(a, b) || isAnswer(b, a);
