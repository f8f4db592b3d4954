import { ANSWER_WORDS, answerLimits, type TestAnswer } from '../../diagnosis/tests/index.ts';
import { capital } from '../../words/index.ts';
import type { Draft } from '../draft.ts';
import { actIn, joinedIn, type Sheet } from '../sheet.ts';
import { actAnswerText, ohmsBand } from '../words.ts';
import { AnswerMark, READINGS } from './answer-mark.tsx';

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
  insulation: ['resistance', 'open'],
  spindle: ['seen', 'not seen', 'comes and goes'],
  link: ['seen', 'not seen', 'comes and goes'],
};

interface Key {
  /** What tells it from another of the same answer. */
  readonly id?: string;
  readonly answer: TestAnswer;
  readonly text: string;
  /** Between which figures it lies; empty where it has none. */
  readonly limits?: string | null;
}

interface KeysProps {
  /** What the answers are to: how many stand in a row hangs on it. */
  readonly kind: string;
  readonly keys: readonly Key[];
  readonly disabled: boolean;
  readonly onAnswer: (answer: TestAnswer, id?: string) => void;
}

/** Letters of a word, and of all words, that a third of a phone's width holds in two lines. */
const NARROW = { word: 9, text: 20 } as const;

const isNarrow = ({ text, limits }: Key): boolean =>
  !limits &&
  text.length <= NARROW.text &&
  text.split(/[ -]/).every(({ length }) => length <= NARROW.word);

/** Answers as neutral keys under the thumb, each with the sign that the readings carry. */
export const Keys = ({ kind, keys, disabled, onAnswer }: KeysProps) => (
  <div
    class={`answer-keys keys-${kind}${keys.length === 3 && keys.every(isNarrow) ? ' keys-narrow' : ''}`}
  >
    {keys.map(({ id, answer, text, limits }) => (
      <button
        key={id ?? answer}
        type="button"
        class="answer-key"
        data-answer={answer}
        disabled={disabled}
        data-outcome={id}
        onClick={() => onAnswer(answer, id)}
      >
        <AnswerMark answer={answer} text={text} />
        {/* A figure keeps its unit where a key is narrow. */}
        {limits && <span class="limits">{limits.replace(/(?<=\d) (?=\S*Ω)/g, '\u00a0')}</span>}
      </button>
    ))}
  </div>
);

interface Props {
  readonly sheet: Sheet;
  readonly draft: Draft;
  readonly disabled: boolean;
  readonly onAnswer: (answer: TestAnswer) => void;
}

/** The usual answers to a draft's test. */
export function AnswerKeys({ sheet, draft, ...rest }: Props) {
  const act = draft.act === null ? undefined : actIn(sheet, draft.act);
  const kind = act?.act ?? (draft.kind === 'live' ? draft.current : draft.kind);
  const keys = USUAL[kind]!.map((answer) => ({
    answer,
    // What is drawn as a reading is written as on the readings' own page.
    text: READINGS.includes(answer)
      ? ANSWER_WORDS[answer]
      : capital(
          act && answer !== 'comes and goes'
            ? actAnswerText(sheet, act.id, answer)
            : ANSWER_WORDS[answer],
        ),
    limits:
      act?.act === 'insulation'
        ? ''
        : answerLimits(answer, act?.act) ||
          ohmsBand(answer, act?.joined ?? joinedIn(sheet, draft.from, draft.to)),
  }));
  return <Keys kind={kind} keys={keys} {...rest} />;
}
