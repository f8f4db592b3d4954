/** What an engineer can find out about a system, and at what cost. */
export { answerIn, deadAnswer, JOINED_OHMS, OPEN_OHMS, type TestAnswer } from './answer.ts';
export {
  ACT_MINUTES,
  baseMinutes,
  fromTheFront,
  minutesFrom,
  modeMinutes,
  openingMinutes,
  type Standing,
} from './costs.ts';
export type {
  DeadAnswer,
  DeadTest,
  FuseAnswer,
  FuseTest,
  LiveTest,
  LookTest,
  Test,
} from './kinds.ts';
export { testsOf } from './list.ts';
export { ANSWER_CLAUSES, ANSWER_LIMITS, ANSWER_WORDS } from './words.ts';
