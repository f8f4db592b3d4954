import { ANSWER_WORDS, answerLimits, type TestAnswer } from '../../diagnosis/tests/index.ts';
import type { Draft } from '../draft.ts';
import { actIn, type Sheet } from '../sheet.ts';
import { actAnswerText, capital } from '../words.ts';
import { AnswerMark } from './answer-mark.tsx';

/** The usual answers to each kind of test, in the order of the keys. */
const USUAL: Readonly<Record<string, readonly TestAnswer[]>> = {
  ac: ['live', 'dead', 'between', 'high'],
  dc: ['dc', 'no dc'],
  dead: ['joined', 'resistance', 'open'],
  fuse: ['intact', 'blown', 'wrong rating'],
  prove: ['dead', 'live'],
  inside: ['nothing', 'found'],
  compare: ['nothing', 'found'],
  core: ['joined', 'resistance', 'open'],
  part: ['joined', 'resistance', 'open'],
  link: ['seen', 'not seen', 'comes and goes'],
};

interface Props {
  readonly sheet: Sheet;
  readonly draft: Draft;
  readonly disabled: boolean;
  readonly onAnswer: (answer: TestAnswer) => void;
}

/** The answers to a draft's test as neutral keys, each with the sign that the readings carry. */
export function AnswerKeys({ sheet, draft, disabled, onAnswer }: Props) {
  const act = draft.act === null ? undefined : actIn(sheet, draft.act);
  const kind = act?.act ?? (draft.kind === 'live' ? draft.current : draft.kind);
  return (
    <div class={`answer-keys keys-${kind}`}>
      {USUAL[kind]!.map((answer) => {
        const limits = answerLimits(answer, act?.act);
        return (
          <button
            key={answer}
            type="button"
            class="answer-key"
            data-answer={answer}
            disabled={disabled}
            onClick={() => onAnswer(answer)}
          >
            <AnswerMark
              answer={answer}
              text={act ? capital(actAnswerText(sheet, act.id, answer)) : ANSWER_WORDS[answer]}
            />
            {limits && <span class="limits">{limits}</span>}
          </button>
        );
      })}
    </div>
  );
}
