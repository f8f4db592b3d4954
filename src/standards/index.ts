/** House standards, judged on the solved circuit: the door to this room. */
export { coveringRows, everyRow } from './cover.ts';
export { judge, ruleWords, runCheck, verdictOn, withExceptions } from './judge.ts';
export { type Subject, subjectOf } from './subject.ts';
export type {
  ExceptedFinding,
  Finding,
  IdleException,
  Judgement,
  NamedStandard,
  PlacedException,
  Verdict,
} from './types.ts';
