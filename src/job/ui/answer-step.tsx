import { useEffect, useRef } from 'preact/hooks';
import type { Observation } from '../../diagnosis/inference/index.ts';
import { capital, lowerFirst, terminalMark, terminalWords } from '../../words/index.ts';
import type { Desk } from '../desk.ts';
import { type DeskState, dueKey } from '../desk-state.ts';
import { against, askedIn, type Draft, observationWith } from '../draft.ts';
import { changeEntry, enterFound, type Job } from '../job.ts';
import { MOST_TEXT } from '../limits.ts';
import { actIn, fuseIn, itemIn, modeIn, refOf, type Sheet } from '../sheet.ts';
import { enteredText, fuseHow, nameOf, partVoltsWhy, pointSaid } from '../words.ts';
import { AnswerKeys } from './answer-keys.tsx';
import { DueLine } from './answer-mark.tsx';
import { Figure } from './figure.tsx';
import { Caution, Choice, Words } from './parts.tsx';
import { isReadAt } from './point-step.tsx';
import { type SafetyStep, SafetySteps, safetyOf } from './safety.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
  readonly draft: Draft;
  readonly ticks: ReadonlySet<string>;
  readonly onTick: (step: SafetyStep, done: boolean) => void;
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
        ? changeEntry(job, draft.edits, { observation, note: draft.note, told: false })
        : enterFound(job, observation, draft.note),
    );
    // A reading taken to prove a repair leads back to what is still to be proved.
    const proving = state.place.view === 'record';
    desk.turn({ draft: null, view: draft.edits ? 'readings' : proving ? 'record' : 'next' });
    if (due) desk.say(enteredText(sheet, observation, due) + partVoltsWhy(props.job, observation));
  };
  return (
    <>
      <Points {...props} />
      <Standing {...props} />
      <SafetySteps steps={safety} ticks={ticks} onTick={onTick} />
      {asked ? (
        <Answers sheet={sheet} draft={draft} safe={safe} onDraft={onDraft} onEnter={enter} />
      ) : (
        <p class="said">Choose a second point that is not the first.</p>
      )}
      {asked && due && (
        <details class="fold">
          <summary>Normal here?</summary>
          <DueLine sheet={sheet} asked={asked} due={due} />
        </details>
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
            {act ? act.title : capital(fuse ? fuse.name : terminalWords(nameOf(draft.from ?? '')))}
          </b>
          <span class="quiet">
            {item?.title} {ref}, {item?.place}
          </span>
        </p>
        <button type="button" class="quiet-button" onClick={onElsewhere}>
          Elsewhere
        </button>
      </div>
      {act && <p>{act.how}</p>}
      {act?.caution && <Caution>{act.caution}</Caution>}
      {fuse && <p>{fuseHow(fuse.rating)}</p>}
    </>
  );
}

/** Against what, with what, in which mode: in a line, and changed where it is opened. */
function Standing(props: Props) {
  const { sheet, draft } = props;
  if (draft.kind === 'fuse' || draft.kind === 'act') return null;
  const mode = modeIn(sheet, draft.mode);
  const instrument = sheet.instruments.find(({ id }) => id === draft.instrument)?.title ?? '';
  const to = draft.to === null ? 'no second point yet' : `to ${pointText(draft)}`;
  return (
    <details class="fold" open={draft.to === null}>
      <summary>
        <b>{capital(to)}</b>
        {draft.kind === 'live' && (
          <span class="quiet">
            {mode?.title}, {lowerFirst(instrument)}
          </span>
        )}
      </summary>
      <Against {...props} />
      {draft.kind === 'live' && (
        <>
          <With {...props} />
          <Mode {...props} />
        </>
      )}
    </details>
  );
}

/** The second point, with its item where that is another. */
const pointText = ({ from, to }: Draft): string =>
  refOf(from ?? '') === refOf(to ?? '') ? terminalWords(nameOf(to ?? '')) : pointSaid(to ?? '');

/** The second point: the usual one is there, any other can be had. */
function Against({ sheet, draft, onDraft }: Props) {
  const ref = refOf(draft.from ?? '');
  const groups = sheet.items
    .toSorted((a, b) => Number(b.ref === ref) - Number(a.ref === ref))
    .map((item) => ({
      label: `${item.title} ${item.ref}`,
      options: item.points
        .filter(
          (point) => point.id !== draft.from && (point.id === draft.to || isReadAt(draft)(point)),
        )
        .map(({ id, name }) => ({
          value: id,
          text: item.ref === ref ? terminalMark(name) : `${terminalMark(name)} at ${item.ref}`,
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

/** The usual answers as large buttons, and a pad for the figure. */
function Answers({ sheet, draft, safe, onDraft, onEnter }: AnswersProps) {
  const act = draft.act === null ? undefined : actIn(sheet, draft.act);
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
      <AnswerKeys
        sheet={sheet}
        draft={draft}
        disabled={!safe}
        onAnswer={(answer) => onEnter(observationWith(draft, answer))}
      />
      {draft.kind !== 'fuse' && draft.kind !== 'act' && (
        <details
          class="figure"
          open={draft.typed !== ''}
          onToggle={({ currentTarget }) =>
            safe && currentTarget.open && currentTarget.scrollIntoView({ block: 'end' })
          }
        >
          <summary>Type the figure</summary>
          <Figure sheet={sheet} draft={draft} onDraft={onDraft} onEnter={onEnter} />
        </details>
      )}
    </fieldset>
  );
}
