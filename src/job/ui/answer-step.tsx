import { useEffect, useRef } from 'preact/hooks';
import { ANSWER_CODES, type Observation } from '../../diagnosis/inference/index.ts';
import { ANSWER_WORDS, answerLimits, type TestAnswer } from '../../diagnosis/tests/index.ts';
import { type Desk, type DeskState, dueKey } from '../desk.ts';
import {
  against,
  askedIn,
  type Draft,
  observationTyped,
  observationWith,
  typedIn,
} from '../draft.ts';
import { addEntry, changeEntry, type Job } from '../job.ts';
import { MOST_TEXT } from '../limits.ts';
import { actIn, fuseIn, itemIn, modeIn, refOf, type Sheet } from '../sheet.ts';
import { actAnswerText, nameOf, ohmsAnswer, voltsAnswer } from '../words.ts';
import { AnswerMark } from './answer-mark.tsx';
import { Pad } from './pad.tsx';
import { Caution, Choice, OneOf, Words } from './parts.tsx';
import { isReadAt } from './point-step.tsx';
import { SafetySteps, safetyOf } from './safety.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
  readonly draft: Draft;
  readonly ticks: ReadonlySet<string>;
  readonly onTick: (key: string, done: boolean) => void;
  readonly onDraft: (draft: Draft) => void;
  readonly onElsewhere: () => void;
}

/** The caution, then second point, mode, instrument, and what the instrument shows. */
export function AnswerStep(props: Props) {
  const { desk, state, sheet, draft, ticks, onTick, onDraft } = props;
  const asked = askedIn(draft);
  const due = asked ? state.dues.get(dueKey(asked)) : undefined;
  const safety = safetyOf(sheet, draft);
  const safe = safety.every(({ key }) => ticks.has(key));
  const enter = (observation: Observation | null) => {
    if (!observation) return;
    desk.act((job) =>
      draft.edits
        ? changeEntry(job, draft.edits, { observation, note: draft.note })
        : addEntry(job, observation, draft.note),
    );
    // A reading taken to prove a repair leads back to what is still to be proved.
    const proving = state.place.view === 'record';
    desk.turn({ draft: null, view: draft.edits ? 'readings' : proving ? 'record' : 'causes' });
  };
  return (
    <>
      <Points {...props} />
      <SafetySteps steps={safety} ticks={ticks} onTick={onTick} />
      {draft.kind === 'live' ? (
        <>
          <div class="beside">
            <Against {...props} />
            <With {...props} />
          </div>
          <Mode {...props} />
        </>
      ) : (
        draft.kind === 'dead' && <Against {...props} />
      )}
      {due && (
        <p class="due">
          <span class="quiet">A sound system here:</span>{' '}
          <AnswerMark
            answer={due.answer}
            text={`${ANSWER_WORDS[due.answer]}${due.figure ? `, ${due.figure}` : ''}`}
          />
        </p>
      )}
      {asked ? (
        <Answers sheet={sheet} draft={draft} safe={safe} onDraft={onDraft} onEnter={enter} />
      ) : (
        <p class="said">Choose a second point that is not the first.</p>
      )}
      <Words
        id="reading-note"
        label="Note (may stay empty)"
        value={draft.note}
        most={MOST_TEXT}
        lines={2}
        onText={(note) => onDraft({ ...draft, note })}
      />
    </>
  );
}

/** The point or fuse link chosen, and the way to another. */
function Points({ sheet, draft, onElsewhere }: Props) {
  const act = draft.act === null ? undefined : actIn(sheet, draft.act);
  const ref = act?.item ?? refOf(draft.branch ?? draft.from ?? '');
  const item = itemIn(sheet, ref);
  const fuse = draft.branch ? fuseIn(sheet, draft.branch) : undefined;
  return (
    <>
      <div class="chosen-point">
        <p>
          <b class="point">
            {act ? act.title : `${ref} ${fuse ? fuse.name : nameOf(draft.from ?? '')}`}
          </b>
          <span class="quiet">
            {item?.title}, {item?.place}
          </span>
        </p>
        <button type="button" class="quiet-button" onClick={onElsewhere}>
          Elsewhere
        </button>
      </div>
      {act && <p>{act.how}</p>}
      {act?.caution && <Caution>{act.caution}</Caution>}
      {fuse && (
        <p>
          Take the fuse link out, read its rating and test it end to end. It should be {fuse.rating}{' '}
          A.
        </p>
      )}
    </>
  );
}

/** The second point: the usual one is there, any other can be had. */
function Against({ sheet, draft, onDraft }: Props) {
  const ref = refOf(draft.from ?? '');
  const groups = sheet.items
    .toSorted((a, b) => Number(b.ref === ref) - Number(a.ref === ref))
    .map((item) => ({
      label: `${item.ref} ${item.title}`,
      options: item.points
        .filter(
          (point) => point.id !== draft.from && (point.id === draft.to || isReadAt(draft)(point)),
        )
        .map(({ id, name }) => ({
          value: id,
          text: item.ref === ref ? name : `${item.ref} ${name}`,
        })),
    }))
    .filter(({ options }) => options.length > 0);
  const none = { label: '', options: [{ value: '', text: 'Choose a point' }] };
  return (
    <Choice
      id="reading-to"
      label="Read against"
      value={draft.to ?? ''}
      groups={draft.to === null ? [none, ...groups] : groups}
      onPick={(to) => to !== '' && onDraft(against(sheet, draft, to))}
    />
  );
}

const option = ({ id, title }: { id: string; title: string }) => ({ value: id, text: title });

function With({ sheet, draft, onDraft }: Props) {
  return (
    <Choice
      id="reading-instrument"
      label="With"
      value={draft.instrument}
      groups={[{ label: '', options: sheet.instruments.map(option) }]}
      onPick={(id) => {
        const found = sheet.instruments.find((one) => one.id === id);
        if (found) onDraft({ ...draft, instrument: found.id });
      }}
    />
  );
}

/** The mode, how it is brought about, and what the instrument's user should bear in mind. */
function Mode({ job, sheet, draft, onDraft }: Props) {
  const mode = modeIn(sheet, draft.mode);
  const [brought, met] = [true, false].map((testable) =>
    sheet.modes.filter((one) => one.testable === testable).map(option),
  );
  return (
    <>
      <Choice
        id="reading-mode"
        label="In mode"
        value={draft.mode}
        groups={[
          { label: 'Brought about', options: brought! },
          { label: 'Only where it is met', options: met! },
        ].filter(({ options }) => options.length > 0)}
        onPick={(id) => onDraft({ ...draft, mode: id })}
      />
      {mode && draft.mode !== job.mode && mode.bring !== '' && (
        <p class="bring">
          <b>{mode.testable ? 'Bring it about:' : 'How it comes about:'}</b> {mode.bring}
        </p>
      )}
      {draft.instrument !== 'tester' && (
        <p class="quiet">{sheet.instruments.find(({ id }) => id === draft.instrument)?.note}</p>
      )}
    </>
  );
}

interface AnswersProps {
  readonly sheet: Sheet;
  readonly draft: Draft;
  readonly safe: boolean;
  readonly onDraft: (draft: Draft) => void;
  readonly onEnter: (observation: Observation | null) => void;
}

const UNITS = [
  [1, 'Ω'],
  [1e3, 'kΩ'],
  [1e6, 'MΩ'],
] as const;

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

/** The usual answers as large buttons, and a pad for the figure. */
function Answers({ sheet, draft, safe, onDraft, onEnter }: AnswersProps) {
  const act = draft.act === null ? undefined : actIn(sheet, draft.act);
  const kind = act?.act ?? (draft.kind === 'live' ? draft.current : draft.kind);
  const figure = typedIn(draft);
  const word =
    figure === null
      ? null
      : draft.kind === 'dead'
        ? ohmsAnswer(Math.abs(figure))
        : voltsAnswer(draft.current === 'ac' ? Math.abs(figure) : figure, draft.current);
  const place = useRef<HTMLFieldSetElement>(null);
  useEffect(() => {
    // The answers come under the thumb as soon as they may be given.
    if (safe) requestAnimationFrame(() => place.current?.scrollIntoView({ block: 'end' }));
  }, [safe]);
  return (
    <fieldset class="answers" disabled={!safe} ref={place}>
      <legend>
        <h3>
          {draft.kind === 'fuse' ? 'What is it?' : act ? 'What comes of it?' : 'What does it show?'}
        </h3>
        {!safe && <p class="said">Tick what is asked above first.</p>}
      </legend>
      <div class={`usual usual-${kind}`}>
        {USUAL[kind]!.map((answer) => (
          <button
            key={answer}
            type="button"
            class={`usual-answer a${ANSWER_CODES[answer]}`}
            onClick={() => onEnter(observationWith(draft, answer))}
          >
            <b>{act ? actAnswerText(sheet, act.id, answer) : ANSWER_WORDS[answer]}</b>
            {answerLimits(answer, act?.act) && <span>{answerLimits(answer, act?.act)}</span>}
          </button>
        ))}
      </div>
      {draft.kind !== 'fuse' && draft.kind !== 'act' && (
        <details
          class="figure"
          open={draft.typed !== ''}
          onToggle={({ currentTarget }) =>
            safe && currentTarget.open && currentTarget.scrollIntoView({ block: 'end' })
          }
        >
          <summary>Type the figure</summary>
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
            onClick={() => onEnter(observationTyped(draft))}
          >
            Enter the figure
          </button>
        </details>
      )}
    </fieldset>
  );
}
