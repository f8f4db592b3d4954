import type { Answer } from '../../diagnosis/index.ts';

/** What an engineer answers to a reading, as a sequence says it. */
export const ANSWER_WORDS: Readonly<Record<Answer, string>> = {
  live: 'live',
  dead: 'dead',
  between: 'between',
  high: 'high',
  dc: 'call voltage there',
  'no dc': 'no call voltage',
};

/** Class name of an answer's look. */
export const ANSWER_LOOKS: Readonly<Record<Answer, string>> = {
  live: 'live',
  dead: 'dead',
  between: 'between',
  high: 'high',
  dc: 'dc',
  'no dc': 'no-dc',
};
