import { capital } from '../../words/index.ts';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import { type Job, lookAt, setLook } from '../job.ts';
import { enterOneOf } from '../one-look.ts';
import { itemIn, outcomeIn, type Sheet, type SheetMode, type SheetOutcome } from '../sheet.ts';
import { onWhoseWord } from '../words.ts';
import { Caution } from './parts.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
}

/** What is seen, heard and felt, mode by mode. */
export function SeenView({ desk, job, sheet }: Props) {
  const brought = sheet.modes.filter(({ testable, isolated }) => testable && !isolated);
  const met = sheet.modes.filter(({ testable }) => !testable);
  const looked = (mode: SheetMode) =>
    sheet.outcomes.filter(({ id }) => {
      const entry = lookAt(job, mode.id, id);
      return entry && !entry.told;
    }).length;
  const first = brought.find((mode) => mode.id === job.mode) ?? brought[0];
  const block = (mode: SheetMode) => (
    <ModeBlock
      key={mode.id}
      desk={desk}
      job={job}
      sheet={sheet}
      mode={mode}
      looked={looked(mode)}
      open={mode.id === first?.id}
    />
  );
  return (
    <section aria-labelledby="seen-title">
      <h2 id="seen-title">What do you see?</h2>
      <p class="quiet">
        Look, listen and feel first, every cover on. Leave what you have not looked at.
      </p>
      {brought.map(block)}
      {met.length > 0 && (
        <>
          <h3>Only where it is met</h3>
          <p class="quiet">Nobody brings these about; enter them if this is how you found it.</p>
          {met.map(block)}
        </>
      )}
    </section>
  );
}

interface BlockProps {
  readonly desk: Desk;
  readonly job: Job;
  readonly sheet: Sheet;
  readonly mode: SheetMode;
  readonly looked: number;
  readonly open: boolean;
}

function ModeBlock({ desk, job, sheet, mode, looked, open }: BlockProps) {
  const outcomes = sheet.outcomes.filter(
    ({ id, steady }) => steady === null || steady === mode.id || lookAt(job, mode.id, id),
  );
  return (
    <details class="mode-block" name="seen-mode" open={open} id={`seen-${mode.id}`}>
      <summary>
        <b>{mode.title}</b>
        <span class="quiet">{looked === 0 ? 'not looked' : `${looked} of ${outcomes.length}`}</span>
      </summary>
      {mode.summary !== '' && <p>{mode.summary}</p>}
      {mode.bring !== '' && (
        <p class="bring">
          <b>{mode.testable ? 'Bring it about:' : 'How it comes about:'}</b> {mode.bring}
        </p>
      )}
      {outcomes.map((outcome) => {
        const props = { desk, job, sheet, mode, outcome };
        if (outcome.oneOf.length === 0) return <Outcome key={outcome.id} {...props} />;
        return outcome.oneOf[0] === outcome.id && <Positions key={outcome.id} {...props} />;
      })}
    </details>
  );
}

type OutcomeProps = Pick<BlockProps, 'desk' | 'job' | 'sheet' | 'mode'> & {
  readonly outcome: SheetOutcome;
};

/** Where something stands that has several positions: one look, said once. */
function Positions({ desk, job, sheet, mode, outcome: { item: ref, oneOf } }: OutcomeProps) {
  const outcomes = oneOf.map((id) => outcomeIn(sheet, id)!);
  const foundOf = (id: string) => {
    const entry = lookAt(job, mode.id, id);
    return entry?.observation.kind === 'look' ? entry.observation.answer : null;
  };
  const at = oneOf.find((id) => foundOf(id) === 'seen');
  const wanders = oneOf.some((id) => foundOf(id) === 'comes and goes');
  const due = outcomes.find(({ id }) => mode.due[id] === 'seen');
  const astray = wanders || (at !== undefined && at !== due?.id);
  const name = `${mode.id} ${ref} position`;
  const forget = () =>
    desk.act((now) => oneOf.reduce((job, id) => setLook(job, mode.id, id, null), now));
  return (
    <fieldset class={`outcome${astray ? ' astray' : ''}`}>
      <legend>
        <b class="point">{ref}</b> {itemIn(sheet, ref)?.title}
      </legend>
      <div class="three">
        {outcomes.map(({ id, title }) => (
          <label key={id}>
            <input
              type="radio"
              name={name}
              checked={at === id}
              onChange={() => desk.act((now) => enterOneOf(now, mode.id, id, oneOf))}
            />
            <span class="state-key">{title}</span>
          </label>
        ))}
        <label class="not-looked">
          <input type="radio" name={name} checked={!at && !wanders} onChange={forget} />
          <span class="state-key">Not looked</span>
        </label>
      </div>
      {wanders && <p class="astray-line">It comes and goes.</p>}
      {astray && due && (
        <p class="astray-line">Not as it should be. {due.title} here in a sound system.</p>
      )}
    </fieldset>
  );
}

const ANSWERS = ['seen', 'not seen'] as const;

/** One outcome: so, not so, or not looked; and where it was looked at, whether it swings. */
function Outcome({ desk, job, sheet, mode, outcome }: OutcomeProps) {
  const entry = lookAt(job, mode.id, outcome.id);
  const found = entry?.observation.kind === 'look' ? entry.observation.answer : null;
  const due = mode.due[outcome.id];
  const astray = found !== null && found !== due;
  const set = (answer: 'seen' | 'not seen' | 'comes and goes' | null) =>
    desk.act((now) => setLook(now, mode.id, outcome.id, answer));
  const name = `${mode.id} ${outcome.id}`;
  const item = itemIn(sheet, outcome.item);
  return (
    <fieldset class={`outcome${astray ? ' astray' : ''}`}>
      <legend>
        <b class="point">{outcome.item}</b> {item?.title}
      </legend>
      {outcome.care !== '' && <Caution>{outcome.care}</Caution>}
      <div class="three">
        {ANSWERS.map((answer) => (
          <label key={answer}>
            <input
              type="radio"
              name={name}
              checked={found === answer}
              onChange={() => set(answer)}
            />
            <span class="state-key">{answer === 'seen' ? outcome.title : outcome.otherwise}</span>
          </label>
        ))}
        <label class="not-looked">
          <input type="radio" name={name} checked={found === null} onChange={() => set(null)} />
          <span class="state-key">Not looked</span>
        </label>
      </div>
      {entry?.told && (
        <p>
          {capital(onWhoseWord(job))}.{' '}
          <button
            type="button"
            class="quiet-button"
            aria-label={`I have seen it so: ${found === 'seen' ? outcome.title : outcome.otherwise}`}
            onClick={() => set(found)}
          >
            I have seen it so
          </button>
        </p>
      )}
      {found !== null && (
        <label class="swings">
          <input
            type="checkbox"
            checked={found === 'comes and goes'}
            onChange={(event) => set(event.currentTarget.checked ? 'comes and goes' : 'seen')}
          />
          <span>It comes and goes</span>
        </label>
      )}
      {astray && (
        <p class="astray-line">
          Not as it should be.{' '}
          {due === 'seen'
            ? outcome.title
            : due === 'not seen'
              ? outcome.otherwise
              : 'It should swing'}{' '}
          here in a sound system.
        </p>
      )}
    </fieldset>
  );
}
