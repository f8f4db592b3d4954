import type { TestAnswer } from '../../diagnosis/tests/index.ts';
import { PART_VOLTS_WHY } from '../../words/index.ts';
import type { Asked, Due } from '../findings.ts';
import type { Sheet } from '../sheet.ts';
import { answerLook, dueText } from '../words.ts';

/** Answers that are drawn as readings. */
export const READINGS: readonly TestAnswer[] = ['live', 'dead', 'between', 'high', 'dc', 'no dc'];

/** An answer, drawn as the site draws a reading; anything else in plain firm words. */
export const AnswerMark = ({ answer, text }: { answer: TestAnswer; text: string }) =>
  READINGS.includes(answer) ? (
    <span class={`v ${answerLook(answer)}`}>{text}</span>
  ) : (
    <b class="answer-words">{text}</b>
  );

interface DueProps {
  readonly sheet: Sheet;
  readonly asked: Asked;
  readonly due: Due;
}

/** What a sound system shows, drawn as a reading is. */
export const DueMark = ({ sheet, asked, due }: DueProps) => (
  <AnswerMark answer={due.answer} text={dueText(sheet, asked, due)} />
);

/** The same in a line, told before the answer only where it is asked for. */
export const DueLine = (props: DueProps) => (
  <p class="due">
    <span class="quiet">A sound system here:</span> <DueMark {...props} />
    {props.due.answer === 'between' && <span class="quiet block">{PART_VOLTS_WHY}</span>}
  </p>
);
