import { useState } from 'preact/hooks';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import { asKind, type Draft } from '../draft.ts';
import type { Job } from '../job.ts';
import type { Sheet } from '../sheet.ts';
import { AnswerStep } from './answer-step.tsx';
import { OneOf } from './parts.tsx';
import { PointStep } from './point-step.tsx';
import type { SafetyStep } from './safety.tsx';
import { useTopOf } from './use-top.ts';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
  readonly draft: Draft;
  readonly ticks: ReadonlySet<string>;
  readonly onTick: (step: SafetyStep, done: boolean) => void;
}

/** A reading from the first probe to its answer: where, then what it shows. */
export function ReadingForm(props: Props) {
  const { desk, job, draft } = props;
  const [again, setAgain] = useState(false);
  const chosen = [draft.branch, draft.act, draft.from].some((id) => id !== null);
  const answering = chosen && !again;
  useTopOf(answering ? 'answer' : 'point');
  const change = (to: Draft) => {
    setAgain(false);
    desk.turn({ draft: to });
  };
  return (
    <section aria-labelledby="reading-title" class="reading-form">
      <div class="panel-head">
        <h2 id="reading-title">{draft.edits ? 'Put a reading right' : 'Reading'}</h2>
        <button type="button" class="quiet-button" onClick={() => desk.turn({ draft: null })}>
          Leave without entering
        </button>
      </div>
      <OneOf
        label="Kind of test"
        value={draft.kind === 'live' ? 'live' : 'dead'}
        choices={[
          ['live', 'Voltage'],
          ['dead', 'Dead test'],
        ]}
        onPick={(kind) => change(asKind(job, draft, kind))}
      />
      {answering ? (
        <AnswerStep {...props} onDraft={change} onElsewhere={() => setAgain(true)} />
      ) : (
        <PointStep {...props} onDraft={change} />
      )}
    </section>
  );
}
