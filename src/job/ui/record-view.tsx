import { useState } from 'preact/hooks';
import { HISTORIES, HISTORY_WORDS } from '../../diagnosis/index.ts';
import { canShare, share } from '../../field/hand-out.ts';
import { capital } from '../../words/index.ts';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import { eitherOf } from '../done.ts';
import type { FoundRepair } from '../findings.ts';
import {
  addRepair,
  changeJob,
  changeRepair,
  type Job,
  setAsFound,
  setFinished,
  takeBackRepair,
} from '../job.ts';
import { MOST_LINE, MOST_TEXT } from '../limits.ts';
import { NOTHING_PROVED, recordOf, recordText } from '../record.ts';
import type { Sheet } from '../sheet.ts';
import { repairText } from '../standing.ts';
import { subjectOf, subjectPath } from '../subject.ts';
import { HandOver } from './hand-over.tsx';
import { JobSheet } from './job-sheet.tsx';
import { Caution, href, OneOf, Words } from './parts.tsx';
import { Photos } from './photos.tsx';
import { duesOf, Proving } from './proving-list.tsx';
import { Remarks } from './remarks.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
  readonly onExport: () => void;
}

/** Repair, proof, what else is wrong, words and pictures; then the record to send and print. */
export function RecordView(props: Props) {
  const { desk, state, job, sheet, onExport } = props;
  const [said, setSaid] = useState('');
  const send = async () => {
    const title = job.name || job.systemTitle;
    const handed = await share({ title, text: recordText(sheet, job, dueOf) });
    setSaid(
      handed === 'refused'
        ? 'This phone did not take it: print the record, or export the job.'
        : '',
    );
  };
  const dueOf = duesOf(state);
  const record = recordOf(sheet, job, dueOf);
  const unproved = job.repairs.length > 0 && record.proved.length === 0;
  return (
    <section aria-labelledby="record-title">
      <h2 id="record-title">Record</h2>
      <Mending {...props} />
      {job.repairs.length > 0 && <Proving {...props} />}
      <Words
        id="job-remains"
        label="What remains, and who does it"
        value={job.remains}
        most={MOST_TEXT}
        lines={2}
        onText={(remains) => desk.act((now) => changeJob(now, { remains }), 'remains')}
      />
      <Remarks desk={desk} job={job} sheet={sheet} />
      <AsFound {...props} />
      <h3>Words and pictures</h3>
      <Words
        id="job-customer"
        label="For the customer, in everyday words"
        value={job.customer || record.customer}
        most={MOST_TEXT}
        lines={5}
        onText={(customer) => desk.act((now) => changeJob(now, { customer }), 'customer')}
      />
      {job.customer !== '' && (
        <button
          type="button"
          class="quiet-button"
          onClick={() => desk.act((now) => changeJob(now, { customer: '' }))}
        >
          Back to the words made of this record
        </button>
      )}
      <Words
        id="job-notes"
        label="Notes"
        value={job.notes}
        most={MOST_TEXT}
        lines={4}
        onText={(notes) => desk.act((now) => changeJob(now, { notes }), 'notes')}
      />
      <Photos {...props} />
      <h3>Close</h3>
      <Words
        id="job-name-now"
        label="Name of the job"
        value={job.name}
        most={MOST_LINE}
        onText={(name) => desk.act((now) => changeJob(now, { name }), 'name')}
      />
      <Words
        id="job-place-now"
        label="Place"
        value={job.place}
        most={MOST_LINE}
        onText={(place) => desk.act((now) => changeJob(now, { place }), 'place')}
      />
      <OneOf
        label="What the customer says of the time before"
        value={job.history}
        choices={HISTORIES.map((one) => [one, HISTORY_WORDS[one]] as const)}
        onPick={(history) => desk.act((now) => changeJob(now, { history }))}
      />
      <Words
        id="job-by"
        label="Done by"
        value={job.by}
        most={MOST_LINE}
        autocomplete="name"
        onText={(by) => desk.act((now) => changeJob(now, { by }), 'by')}
      />
      {unproved && job.finished === null && <Caution>{NOTHING_PROVED}</Caution>}
      <div class="record-acts">
        <button
          type="button"
          class={job.finished ? 'plain' : 'firm'}
          onClick={() => desk.act((now) => setFinished(now, job.finished === null))}
        >
          {job.finished ? 'Take up again' : 'Finish the job'}
        </button>
        <button type="button" class="plain" onClick={() => print()}>
          Print
        </button>
        {canShare() && (
          <button type="button" class="plain" onClick={() => void send()}>
            Share
          </button>
        )}
        <button type="button" class="plain" onClick={onExport}>
          Export
        </button>
      </div>
      <p role="status" class="said">
        {said}
      </p>
      {job.finished !== null && job.system !== null && <HandOver {...props} />}
      {job.finished !== null && job.composed !== null && (
        <p class="quiet">
          A visit on an arrangement from parts is not among those handed over for the firm’s counts,
          which go by systems: share this record, or export its file.
        </p>
      )}
      <JobSheet job={job} sheet={sheet} dueOf={dueOf} picture={desk.picture} />
    </section>
  );
}

/** The wiring as it was found, where it was marked; and the way to mark it. */
function AsFound({ desk, job }: Props) {
  const subject = subjectOf(job)!;
  const page = (fragment: string) => href(subjectPath(subject, 'as-found', fragment));
  return (
    <>
      <h3>Wiring as found</h3>
      {job.asFound === null ? (
        <p>
          <a href={page(`job=${job.id}`)}>Mark what is wired otherwise</a>, and keep it with this
          job there.
        </p>
      ) : (
        <div class="pair">
          <a class="plain" href={page(job.asFound)}>
            Open it
          </a>
          <button
            type="button"
            class="plain"
            onClick={() => desk.act((now) => setAsFound(now, null))}
          >
            Take it off
          </button>
        </div>
      )}
    </>
  );
}

/** What was mended, from the ranked causes or in the reader's own words. */
function Mending({ desk, state, job }: Props) {
  const [typed, setTyped] = useState('');
  const ranked = (state.findings?.repairs ?? []).filter(({ sound }) => !sound).slice(0, 4);
  const isFound = (one: FoundRepair) =>
    state.findings?.found === true && one === state.findings.repairs[0];
  const last = job.repairs.at(-1);
  const enter = (text: string) => {
    desk.act((now) => addRepair(now, text));
    setTyped('');
  };
  return (
    <>
      <h3>What was repaired</h3>
      {job.repairs.length > 1 && (
        <ol class="plain-list">
          {job.repairs.slice(0, -1).map(({ at, text }) => (
            <li key={at}>{text}</li>
          ))}
        </ol>
      )}
      {last && (
        <>
          <Words
            key={last.at}
            id="repair-done"
            label="What was done, as the record says it"
            value={last.text}
            most={MOST_TEXT}
            lines={4}
            onText={(text) => desk.act((now) => changeRepair(now, text), 'repair')}
          />
          {eitherOf(last.text).length > 0 && (
            <fieldset class="asked-one">
              <legend>Which of them was done?</legend>
              <div class="answer-keys">
                {eitherOf(last.text).map(({ what, text }) => (
                  <button
                    key={what}
                    type="button"
                    class="answer-key"
                    onClick={() => desk.act((now) => changeRepair(now, text))}
                  >
                    <b>{capital(what)}</b>
                  </button>
                ))}
              </div>
            </fieldset>
          )}
          <button
            type="button"
            class="quiet-button"
            onClick={() => desk.act((now) => takeBackRepair(now))}
          >
            {job.repairs.length > 1 ? 'Take the last one back' : 'Take it back'}
          </button>
        </>
      )}
      <details class="mend" open={job.repairs.length === 0}>
        <summary>{job.repairs.length === 0 ? 'Enter the repair' : 'Another repair'}</summary>
        {ranked.length > 0 && (
          <ul class="pick-list">
            {ranked.map((one) => (
              <li key={one.key}>
                <button type="button" onClick={() => enter(repairText(one, isFound(one)))}>
                  <strong>{one.causes[0]?.title}</strong>
                  <span class="quiet">{one.repair}</span>
                </button>
              </li>
            ))}
          </ul>
        )}
        <Words
          id="repair-typed"
          label="Or in your own words"
          value={typed}
          most={MOST_TEXT}
          lines={2}
          onText={setTyped}
        />
        <button
          type="button"
          class="plain"
          disabled={typed.trim() === ''}
          onClick={() => enter(typed)}
        >
          Enter this repair
        </button>
      </details>
      {job.repairs.length > 0 && (
        <Caution>
          Covers back on and dead tests made before the supply comes back.{' '}
          <a href={href('/procedures/proving-the-loop/')}>Proving the loop</a>
        </Caution>
      )}
    </>
  );
}
