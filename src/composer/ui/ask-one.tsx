import { useState } from 'preact/hooks';
import { Caution, href } from '../../job/ui/parts.tsx';
import { capital } from '../../words/index.ts';
import type { ComposerDesk, Screen } from '../desk.ts';
import type { Asked } from '../engine.ts';
import type { Unsound } from '../soundness.ts';
import { PartNote } from './part-note.tsx';

interface Props {
  readonly desk: ComposerDesk;
  readonly screen: Extract<Screen, { kind: 'asking' }>;
}

/** One question, its answers as large keys; what cannot stand is shown with the reason. */
export function AskOne({ desk, screen }: Props) {
  const { standing, unsound, already, kept } = screen;
  const { question, answered, answers, usual } = standing;
  const [doubted, setDoubted] = useState<string | null>(null);
  if (!question) return null;
  const allowed = question.options
    .filter(({ id }) => question.refused[id] === undefined && !unsound[id])
    .map(({ title }) => title);
  const about = question.options.find(({ id }) => id === doubted);
  return (
    <>
      <p class="composer-step">
        {answered.length > 0 && (
          <button type="button" class="quiet-button" onClick={() => history.back()}>
            Back
          </button>
        )}
        <span class="quiet">Your system from its parts</span>
      </p>
      <h1 tabIndex={-1}>{question.asks}</h1>
      {answered.length === 0 && (
        <>
          <p class="lede">
            Part by part, as it is in front of you. Wiring and readings follow at once.
          </p>
          <Caution>
            Covers on.{' '}
            <a href={href('/procedures/safe-isolation/')}>Isolate, lock off, prove dead</a> before
            one comes off.
          </Caution>
          {kept && (
            <button type="button" class="plain" onClick={() => desk.openKept(kept.address)}>
              Go on with the last: {kept.title}
            </button>
          )}
        </>
      )}
      {already && (
        <p class="already" role="status">
          <b>Not in order already:</b> {againstWords(already)}. The page says so at the end, before
          any reading.
        </p>
      )}
      <ul class="part-keys">
        {question.options.map((option) => (
          <li key={`${question.id} ${option.id}`}>
            <PartKey
              option={option}
              isChosen={answers[question.id] === option.id}
              refused={question.refused[option.id]}
              unsound={unsound[option.id] ?? null}
              isOpen={doubted === option.id}
              onPick={() => {
                const isDoubted = Boolean(unsound[option.id]);
                setDoubted(isDoubted ? option.id : null);
                if (!isDoubted) desk.answer(option.id);
              }}
            />
            {doubted === option.id && about && unsound[about.id] && (
              <Doubt
                unsound={unsound[about.id]!}
                allowed={allowed}
                onTake={() => {
                  setDoubted(null);
                  desk.answer(about.id);
                }}
              />
            )}
          </li>
        ))}
      </ul>
      {usual && (
        <button type="button" class="main-act usual-act" onClick={() => desk.answerUsual()}>
          Nothing more, the rest as usual: show it
        </button>
      )}
      {answered.length > 0 && (
        <details class="fold so-far">
          <summary>
            <b>Chosen so far</b> <span class="quiet">{answered.length}</span>
          </summary>
          <ul class="chosen-parts">
            {answered.map(({ id, about: what, title, module }) => (
              <li key={id}>
                <span class="quiet">{what}</span> <b>{title}</b>
                <button type="button" class="quiet-button" onClick={() => desk.change(id)}>
                  Change<span class="unseen"> {what}</span>
                </button>
                {module && <PartNote module={module} />}
              </li>
            ))}
          </ul>
          <button type="button" class="quiet-button" onClick={() => desk.begin()}>
            Begin again
          </button>
        </details>
      )}
    </>
  );
}

interface KeyProps {
  readonly option: Asked['options'][number];
  readonly isChosen: boolean;
  readonly refused: string | undefined;
  readonly unsound: Unsound | null;
  readonly isOpen: boolean;
  readonly onPick: () => void;
}

/** One answer as a key; where it has no circuit, what stands against it and no key. */
function PartKey({ option, isChosen, refused, unsound, isOpen, onPick }: KeyProps) {
  const { title, cue } = option;
  if (refused !== undefined)
    return (
      <div class="part-key part-refused">
        <b>{title}</b>
        <span>
          <b class="cannot">No circuit:</b> {refused}.
        </span>
      </div>
    );
  return (
    <button
      type="button"
      class={unsound ? 'part-key part-unsound' : 'part-key'}
      aria-expanded={unsound ? isOpen : undefined}
      aria-current={isChosen ? 'true' : undefined}
      onClick={onPick}
    >
      <b>{title}</b>
      {unsound ? (
        <span>
          <b class="cannot">Not in order:</b> {againstWords(unsound)}
        </span>
      ) : (
        cue !== '' && <span>{cue}</span>
      )}
    </button>
  );
}

/** What an answer is against, in part of a sentence. */
const againstWords = ({ standard }: Unsound): string =>
  standard === undefined ? 'it does otherwise than it must' : `against “${standard}”`;

interface DoubtProps {
  readonly unsound: Unsound;
  readonly allowed: readonly string[];
  readonly onTake: () => void;
}

/** Why an answer makes nothing that is in order, what would, and the way on where it is found so. */
const Doubt = ({ unsound, allowed, onTake }: DoubtProps) => (
  <div class="doubt" role="alert">
    <p>
      <strong class="caution-word">Not in order</strong> {capital(againstWords(unsound))}: with this
      part {unsound.found}.
    </p>
    {allowed.length > 0 && (
      <p>
        <b>In order here:</b> {allowed.join('; ')}.
      </p>
    )}
    <button type="button" class="plain" onClick={onTake}>
      It is wired so: go on, and say what is wrong
    </button>
  </div>
);
