import { CLASS_LIMITS } from '../../circuit/index.ts';
import { INSULATION_LIMITS } from '../../published/index.ts';
import { READING_WORDS } from '../../words/index.ts';
import type { TestAnswer } from './answer.ts';
import type { ActTest } from './kinds.ts';

/**
 * Every answer in the trade's words, as it stands alone: on a button, in a table, in a step. A
 * reading proves nothing dead: that word is for a point proved so, see `answerWordsOf`.
 */
export const ANSWER_WORDS: Readonly<Record<TestAnswer, string>> = {
  ...READING_WORDS,
  dc: 'call voltage there',
  'no dc': 'no call voltage',
  seen: 'so',
  'not seen': 'not so',
  'comes and goes': 'comes and goes',
  joined: 'continuity',
  resistance: 'a resistance',
  open: 'open circuit',
  intact: 'good, right rating',
  blown: 'blown',
  'wrong rating': 'wrong rating',
  unsettled: 'one or the other',
  'no short': 'no short',
  nothing: 'nothing wrong seen',
  found: 'found',
};

/** The same of two points or a fuse, in a sentence: `SL at the boiler E1 has no volts`. Looks have words of their own. */
export const ANSWER_CLAUSES: Readonly<
  Record<
    Exclude<TestAnswer, 'seen' | 'not seen' | 'comes and goes' | 'unsettled' | 'nothing' | 'found'>,
    string
  >
> = {
  live: 'is live',
  dead: 'has no volts',
  between: 'has part volts',
  high: 'reads high',
  dc: 'shows the call voltage',
  'no dc': 'shows no call voltage',
  joined: 'shows continuity',
  resistance: 'reads a resistance',
  open: 'is open circuit',
  'no short': 'shows no short',
  intact: 'is good',
  blown: 'is blown',
  'wrong rating': 'is of the wrong rating',
};

/** An answer's word beside its test: only what is proved so is dead. */
export const answerWordsOf = (answer: TestAnswer, act?: ActTest['act']): string =>
  ACT_ANSWERS[act ?? '']?.[answer] ?? ANSWER_WORDS[answer];

const LEAST = INSULATION_LIMITS.equipmentConnected.megohms;

/** Answers that an act has words of its own for. */
const ACT_ANSWERS: Readonly<Record<string, Partial<Record<TestAnswer, string>>>> = {
  prove: { dead: 'dead' },
  insulation: { resistance: `under ${LEAST} MΩ`, open: `${LEAST} MΩ or more` },
  spindle: { seen: 'turns freely', 'not seen': 'seized', 'comes and goes': 'stiff' },
};

/** What each answer of a voltage reading stands for, in figures. */
export const ANSWER_LIMITS: Readonly<Partial<Record<TestAnswer, string>>> = {
  live: `${Math.ceil(CLASS_LIMITS.live)} to ${CLASS_LIMITS.high} V`,
  dead: `up to ${CLASS_LIMITS.dead} V`,
  between: 'anything in between',
  high: `over ${CLASS_LIMITS.high} V`,
};

const PROVED: typeof ANSWER_LIMITS = { live: 'any indication: stop', dead: 'no indication' };

/** What an answer's word stands for; proving dead has no figures, any indication stops the work. */
export const answerLimits = (answer: TestAnswer, act?: ActTest['act']): string =>
  (act === 'prove' ? PROVED : ANSWER_LIMITS)[answer] ?? '';
