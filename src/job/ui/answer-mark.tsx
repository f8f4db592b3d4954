import type { TestAnswer } from '../../diagnosis/tests/index.ts';
import { answerLook } from '../words.ts';

const READINGS: readonly TestAnswer[] = ['live', 'dead', 'between', 'high', 'dc', 'no dc'];

/** An answer, drawn as the site draws a reading; anything else in plain firm words. */
export const AnswerMark = ({ answer, text }: { answer: TestAnswer; text: string }) =>
  READINGS.includes(answer) ? (
    <span class={`v ${answerLook(answer)}`}>{text}</span>
  ) : (
    <b class="answer-words">{text}</b>
  );
