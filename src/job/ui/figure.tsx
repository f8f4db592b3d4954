import type { Observation } from '../../diagnosis/inference/index.ts';
import { ANSWER_WORDS } from '../../diagnosis/tests/index.ts';
import { type Draft, observationTyped, typedIn } from '../draft.ts';
import { joinedIn, type Sheet } from '../sheet.ts';
import { ohmsAnswer, voltsAnswer } from '../words.ts';
import { Pad } from './pad.tsx';
import { OneOf } from './parts.tsx';

interface Props {
  readonly sheet: Sheet;
  readonly draft: Draft;
  readonly onDraft: (draft: Draft) => void;
  readonly onEnter: (observation: Observation | null) => void;
}

const UNITS = [
  [1, 'Ω'],
  [1e3, 'kΩ'],
  [1e6, 'MΩ'],
] as const;

/** A figure, typed on large keys, with the word that it comes to. */
export function Figure({ sheet, draft, onDraft, onEnter }: Props) {
  const figure = typedIn(draft);
  const word =
    figure === null
      ? null
      : draft.kind === 'dead'
        ? ohmsAnswer(Math.abs(figure), joinedIn(sheet, draft.from, draft.to))
        : voltsAnswer(draft.current === 'ac' ? Math.abs(figure) : figure, draft.current);
  return (
    <>
      {draft.kind === 'live' ? (
        <OneOf
          label="Kind of voltage"
          value={draft.current}
          choices={[
            ['ac', 'V AC'],
            ['dc', 'V DC'],
          ]}
          onPick={(current) => onDraft({ ...draft, current })}
        />
      ) : (
        <OneOf
          label="Unit"
          value={draft.scale}
          choices={UNITS}
          onPick={(scale) => onDraft({ ...draft, scale })}
        />
      )}
      <p class="figure-shown" role="status">
        <b>{draft.typed || '–'}</b>{' '}
        {draft.kind === 'live'
          ? `V ${draft.current.toUpperCase()}`
          : UNITS.find(([scale]) => scale === draft.scale)?.[1]}
        {word && `: ${ANSWER_WORDS[word]}`}
      </p>
      <Pad
        typed={draft.typed}
        signed={draft.kind === 'live' && draft.current === 'dc'}
        onTyped={(typed) => onDraft({ ...draft, typed })}
      />
      <button
        type="button"
        class="main-act"
        disabled={figure === null}
        onClick={() => onEnter(observationTyped(sheet, draft))}
      >
        Enter the figure
      </button>
    </>
  );
}
