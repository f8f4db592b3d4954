import { ANSWER_WORDS } from '../../diagnosis/tests/index.ts';
import { type Desk, type DeskState, dueKey } from '../desk.ts';
import { draftFor } from '../draft.ts';
import { type Job, setLook } from '../job.ts';
import { type ProvingLook, provingCount, provingModes, provingReadings } from '../proving.ts';
import type { Sheet, SheetMode } from '../sheet.ts';
import { answerText, outcomeText, standText, subjectText } from '../words.ts';
import { AnswerMark } from './answer-mark.tsx';
import { Caution } from './parts.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
}

/** What must now be seen in every mode, ticked one by one; and the readings to take again. */
export function Proving(props: Props) {
  const { job, sheet } = props;
  const modes = provingModes(sheet, job);
  const { all, proved, astray } = provingCount(modes);
  return (
    <>
      <h3>Prove it</h3>
      <p role="status">
        <b>
          {proved} of {all}
        </b>{' '}
        seen as they must be.
        {astray > 0 && ` ${astray} not: look further under Causes, which now starts from these.`}
      </p>
      <Again {...props} />
      {modes.map(({ mode, looks }) => (
        <details class="mode-block" key={mode.id} name="proving-mode">
          <summary>
            <b>{mode.title}</b>
            <span class="quiet">
              {looks.filter(({ found, due }) => found === due).length} of {looks.length}
            </span>
          </summary>
          {mode.bring !== '' && (
            <p class="bring">
              <b>Bring it about:</b> {mode.bring}
            </p>
          )}
          {looks.map((look) => (
            <Look key={look.outcome.id} {...props} mode={mode} look={look} />
          ))}
        </details>
      ))}
    </>
  );
}

function Look({ desk, sheet, mode, look }: Props & { mode: SheetMode; look: ProvingLook }) {
  const { outcome, due, found } = look;
  const set = (answer: ProvingLook['found']) =>
    desk.act((now) => setLook(now, mode.id, outcome.id, answer));
  const other = due === 'seen' ? 'not seen' : 'seen';
  return (
    <div class={`proof${found !== null && found !== due ? ' astray' : ''}`}>
      {outcome.care !== '' && <Caution>{outcome.care}</Caution>}
      <label class="tick">
        <input
          type="checkbox"
          checked={found === due}
          onChange={(event) => set(event.currentTarget.checked ? due : null)}
        />
        <span>
          <b class="point">{outcome.item}</b> {outcomeText(sheet, outcome.id, due)}
        </span>
      </label>
      <button
        type="button"
        class="quiet-button"
        aria-pressed={found !== null && found !== due}
        onClick={() => set(found !== null && found !== due ? null : other)}
      >
        Not so
      </button>
    </div>
  );
}

/** Readings taken before the repair, with what they must read now. */
function Again({ desk, state, job, sheet }: Props) {
  const readings = provingReadings(job);
  if (readings.length === 0) return null;
  const taken = readings.filter(({ after }) => after).length;
  return (
    <details class="mode-block" name="proving-mode" open={taken > 0 && taken < readings.length}>
      <summary>
        <b>Readings, taken again</b>
        <span class="quiet">
          {taken} of {readings.length}
        </span>
      </summary>
      <ul class="again-list">
        {readings.map(({ before, asked, after }) => {
          const due = state.dues.get(dueKey(asked));
          return (
            <li key={before.id}>
              <p>
                <b class="point">{subjectText(sheet, before.observation)}</b>{' '}
                <span class="quiet">{standText(sheet, before.observation)}</span>
              </p>
              <p>
                Was {answerText(sheet, before.observation)}
                {due && (
                  <>
                    ; must be{' '}
                    <AnswerMark
                      answer={due.answer}
                      text={`${ANSWER_WORDS[due.answer]}${due.figure ? `, ${due.figure}` : ''}`}
                    />
                  </>
                )}
                {after && <>; now {answerText(sheet, after.observation)}</>}
              </p>
              {asked.kind !== 'look' && (
                <button
                  type="button"
                  class="plain"
                  onClick={() => desk.turn({ draft: draftFor(job, asked) })}
                >
                  {after ? 'Once more' : 'Take it again'}
                </button>
              )}
            </li>
          );
        })}
      </ul>
    </details>
  );
}
