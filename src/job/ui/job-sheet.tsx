import { capital } from '../../words/index.ts';
import { EMERGENCY_LINES } from '../customer.ts';
import type { Desk } from '../desk.ts';
import type { Job } from '../job.ts';
import type { DueOf } from '../proving.ts';
import {
  dayText,
  NOTHING_PROVED,
  nothingRepaired,
  recordOf,
  remarkText,
  type Said,
  type SaidLooks,
} from '../record.ts';
import type { Sheet } from '../sheet.ts';
import { subjectOf, subjectPath } from '../subject.ts';
import { href } from './parts.tsx';
import { Picture } from './photos.tsx';

interface Props {
  readonly job: Job;
  readonly sheet: Sheet;
  readonly dueOf: DueOf;
  readonly picture: Desk['picture'];
}

/** The record as a sheet of paper: what was found, done and proved. */
export function JobSheet({ job, sheet, dueOf, picture }: Props) {
  const record = recordOf(sheet, job, dueOf);
  const mended = job.repairs.length > 0;
  return (
    <article class="job-sheet" aria-label="The record as it prints">
      <header class="sheet-head">
        <div class="sheet-title">
          <h3>{job.name || 'Job record'}</h3>
          <p>{job.systemTitle}</p>
        </div>
        <dl class="sheet-particulars">
          <div class="wide">
            <dt>Place</dt>
            <dd>{job.place || '–'}</dd>
          </div>
          <div>
            <dt>Begun</dt>
            <dd>{dayText(job.started)}</dd>
          </div>
          <div>
            <dt>Finished</dt>
            <dd>{job.finished ? dayText(job.finished) : 'still open'}</dd>
          </div>
          <div>
            <dt>Done by</dt>
            <dd>{job.by || '–'}</dd>
          </div>
          {job.wiring !== null && (
            <div>
              <dt>Wiring version</dt>
              <dd>{job.wiring}</dd>
            </div>
          )}
          <div class="signed">
            <dt>Signed</dt>
            <dd>&nbsp;</dd>
          </div>
        </dl>
      </header>
      {record.standing.map((line) => (
        <p key={line} class="proven">
          {line}
        </p>
      ))}
      <p>{record.reported}</p>
      {(record.found.length > 0 || record.rows.length === 0) && <h4>Found</h4>}
      {record.found.length > 0 && <Looks groups={record.found} />}
      {record.found.length + record.rows.length === 0 && <p>Nothing looked at or read.</p>}
      {record.rows.length > 0 && (
        <>
          <h4>Readings</h4>
          <p class="quiet">Voltages on the two-pole tester unless another is named.</p>
          <table class="record-table">
            <thead>
              <tr>
                <th scope="col">Between</th>
                <th scope="col">Mode</th>
                <th scope="col">As found</th>
                <th scope="col">After</th>
              </tr>
            </thead>
            <tbody>
              {record.rows.map(({ subject, mode, before, after }, i) => (
                <tr key={`${subject.words} ${mode} ${i}`}>
                  <th scope="row">
                    <Code of={subject} />
                  </th>
                  <td>{mode}</td>
                  <td>{before || '–'}</td>
                  <td>{after || '–'}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
      {job.asFound !== null && (
        <p>
          <a href={href(subjectPath(subjectOf(job)!, 'as-found', job.asFound))}>
            The wiring was not as drawn
          </a>
          : what differs is marked on the page that this leads to.
        </p>
      )}
      <h4>Repaired</h4>
      <Lines lines={mended ? record.repairs : [nothingRepaired(job)]} />
      {mended && (
        <>
          <h4>Proved</h4>
          <Lines lines={record.proved.length > 0 ? record.proved : [NOTHING_PROVED]} />
        </>
      )}
      {record.astray.length > 0 && (
        <>
          <h4>Not as it must be</h4>
          <Looks groups={record.astray} />
        </>
      )}
      {record.unproved.length > 0 && (
        <p>Not proved, or not wholly: {record.unproved.join(', ')}.</p>
      )}
      {record.untried.length > 0 && <p class="quiet">Not tried: {record.untried.join(', ')}.</p>}
      {record.remarks.length > 0 && (
        <>
          <h4>Noticed beside the fault</h4>
          <Lines lines={record.remarks.map(remarkText)} />
        </>
      )}
      {record.remains !== '' && (
        <>
          <h4>What remains</h4>
          <p class="notes">{record.remains}</p>
        </>
      )}
      {job.notes.trim() !== '' && (
        <>
          <h4>Notes</h4>
          <p class="notes">{job.notes}</p>
        </>
      )}
      <div class="for-customer">
        <h4>For the customer</h4>
        <p class="notes">{record.customer}</p>
        <h5>In an emergency</h5>
        <ul class="in-emergency">
          {EMERGENCY_LINES.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </div>
      {job.photos.length > 0 && (
        <ul class="photo-list on-sheet">
          {job.photos.map((photo) => (
            <li key={photo.id}>
              <Picture photo={photo} picture={picture} />
            </li>
          ))}
        </ul>
      )}
    </article>
  );
}

/** Words, their code small behind them. */
const Code = ({ of: { words, code } }: { of: Said }) => (
  <>
    {words}
    {code !== '' && (
      <>
        {' '}
        <small class="point">{code}</small>
      </>
    )}
  </>
);

const Looks = ({ groups }: { groups: readonly SaidLooks[] }) => (
  <ul class="plain-list">
    {groups.map(({ mode, looks }) => (
      <li key={mode}>
        <b>{mode}:</b>{' '}
        {looks.map((said, i) => (
          <span key={`${said.code} ${said.words}`}>
            {i > 0 && '; '}
            <Code of={said} />
          </span>
        ))}
      </li>
    ))}
  </ul>
);

const Lines = ({ lines }: { lines: readonly string[] }) => (
  <ul class="plain-list">
    {lines.map((line, i) => (
      <li key={`${i} ${line}`}>{capital(line)}</li>
    ))}
  </ul>
);
