/** What an engineer can find out about a system, and at what cost. */
export { isLiveAt, takesOut } from './act-answer.ts';
export { type ActWords, actWords } from './act-words.ts';
export { actsOf } from './acts.ts';
export {
  answerIn,
  disconnectedAnswer,
  INSTRUMENT_LOADS,
  leadInsulationAnswer,
  mayBeOne,
  NO_LOAD_OHMS,
  placeInsulationAnswer,
  situationOf,
  type TestAnswer,
} from './answer.ts';
export {
  ACT_MINUTES,
  baseMinutes,
  comparingMinutes,
  fromTheFront,
  minutesFrom,
  modeMinutes,
  openingMinutes,
  type Standing,
} from './costs.ts';
export type {
  ActTest,
  DeadAnswer,
  DeadTest,
  FuseAnswer,
  FuseTest,
  InspectAnswer,
  LiveTest,
  LookTest,
  Test,
} from './kinds.ts';
export {
  deadAnswer,
  feedsMotor,
  INSULATION_OHMS,
  JOINED_OHMS,
  joinedOhms,
  OPEN_OHMS,
  shortOhms,
} from './limits.ts';
export { testsOf, workingMode } from './list.ts';
export {
  ANSWER_CLAUSES,
  ANSWER_LIMITS,
  ANSWER_WORDS,
  answerLimits,
  answerWordsOf,
} from './words.ts';
