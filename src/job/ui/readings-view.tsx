import { Fragment } from 'preact';
import { answerWord } from '../../diagnosis/inference/index.ts';
import { capital } from '../../words/index.ts';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import { draftOf, newDraft } from '../draft.ts';
import { changeEntry, type Entry, type Job, removeEntry, roundOf } from '../job.ts';
import { MOST_TEXT } from '../limits.ts';
import { dayText } from '../record.ts';
import type { Sheet } from '../sheet.ts';
import { answerText, onWhoseWord, standText, subjectText } from '../words.ts';
import { AnswerMark } from './answer-mark.tsx';
import { Words } from './parts.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
}

/** Everything entered, newest first, and the way to the next reading. */
export function ReadingsView({ desk, state, job, sheet }: Props) {
  const rounds = [...Array(roundOf(job) + 1).keys()].reverse();
  return (
    <section aria-labelledby="readings-title">
      <h2 id="readings-title">Readings and looks</h2>
      {job.entries.length === 0 && (
        <p class="lede">
          Nothing entered yet. Look first, then dead tests; a live reading only where no dead test
          answers.
        </p>
      )}
      {rounds.map((round) => {
        const entries = job.entries.filter((entry) => entry.round === round).reverse();
        return (
          <Fragment key={round}>
            {roundOf(job) > 0 && (
              <h3>
                {round === 0
                  ? 'As found'
                  : `After repair ${round}: ${job.repairs[round - 1]?.text}`}
              </h3>
            )}
            <ol class="entry-list" reversed>
              {entries.map((entry) => (
                <EntryRow
                  key={entry.id}
                  desk={desk}
                  state={state}
                  job={job}
                  sheet={sheet}
                  entry={entry}
                />
              ))}
            </ol>
          </Fragment>
        );
      })}
      <nav class="job-act" aria-label="Next act">
        <button type="button" class="main-act" onClick={() => desk.turn({ draft: newDraft(job) })}>
          Take a reading
        </button>
      </nav>
    </section>
  );
}

function EntryRow({ desk, state, job, sheet, entry }: Props & { readonly entry: Entry }) {
  const { observation, note, id, told } = entry;
  const doubted = state.findings?.doubted.includes(id) === true;
  const refused = state.findings?.refused.find((one) => one.id === id);
  const draft = draftOf(job, entry);
  return (
    <li>
      <details class="entry" name="entry">
        <summary>
          <span class="entry-subject">
            <b class="point">{subjectText(sheet, observation)}</b>
            <span class="quiet">{standText(sheet, observation)}</span>
            {told && <b class="told">{capital(onWhoseWord(job))}: not looked at yet</b>}
          </span>
          <AnswerMark answer={answerWord(observation)} text={answerText(sheet, observation)} />
        </summary>
        {note.trim() !== '' && <p>{note}</p>}
        <p class="quiet">{dayText(entry.at)}</p>
        <Words
          id={`note-${id}`}
          label="Note"
          value={note}
          most={MOST_TEXT}
          lines={2}
          onText={(text) => desk.act((now) => changeEntry(now, id, { note: text }), `note ${id}`)}
        />
        <div class="pair">
          {draft && (
            <button type="button" class="firm" onClick={() => desk.turn({ draft })}>
              Put right
            </button>
          )}
          <button
            type="button"
            class="plain"
            onClick={() => desk.act((now) => removeEntry(now, id))}
          >
            Remove
          </button>
        </div>
      </details>
      {doubted && <p class="doubt">This does not fit with the rest: take it again.</p>}
      {refused && (
        <p class="doubt">
          The wiring shown for this system has changed and no longer has this: it is left out.
        </p>
      )}
    </li>
  );
}
