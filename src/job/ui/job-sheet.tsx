import type { Desk } from '../desk.ts';
import type { Job } from '../job.ts';
import { provingCount, provingModes } from '../proving.ts';
import { dayText, recordOf } from '../record.ts';
import type { Sheet } from '../sheet.ts';
import { capital } from '../words.ts';
import { href } from './parts.tsx';
import { Picture } from './photos.tsx';

interface Props {
  readonly job: Job;
  readonly sheet: Sheet;
  readonly picture: Desk['picture'];
}

/** The record as a sheet of paper: what was found, done and proved. */
export function JobSheet({ job, sheet, picture }: Props) {
  const record = recordOf(sheet, job);
  const { all, proved } = provingCount(provingModes(sheet, job));
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
          <div>
            <dt>Wiring version</dt>
            <dd>{job.wiring}</dd>
          </div>
          <div class="signed">
            <dt>Signed</dt>
            <dd>&nbsp;</dd>
          </div>
        </dl>
      </header>
      <Lines title="Found" lines={record.found.map(capital)} empty="Nothing looked at." />
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
                <tr key={`${subject} ${mode} ${i}`}>
                  <th scope="row" class="point">
                    {subject}
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
          <a href={href(`/systems/${job.system}/as-found/#${job.asFound}`)}>
            The wiring as found was otherwise than the entry shows
          </a>
          : marked on the system’s page of it, which this record leads to.
        </p>
      )}
      <Lines title="Repaired" lines={record.repairs} empty="Nothing repaired." />
      {job.repairs.length > 0 && (
        <Lines
          title={`Proved: ${proved} of ${all} seen as they must be`}
          lines={record.proved}
          empty="Nothing proved."
        />
      )}
      {record.astray.length > 0 && (
        <Lines title="Not as it must be" lines={record.astray} empty="" />
      )}
      {record.open.length > 0 && <p>Not proved, or not wholly: {record.open.join(', ')}.</p>}
      {job.notes.trim() !== '' && (
        <>
          <h4>Notes</h4>
          <p class="notes">{job.notes}</p>
        </>
      )}
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

const Lines = ({
  title,
  lines,
  empty,
}: {
  title: string;
  lines: readonly string[];
  empty: string;
}) => (
  <>
    <h4>{title}</h4>
    {lines.length === 0 ? (
      <p>{empty}</p>
    ) : (
      <ul class="plain-list">
        {lines.map((line, i) => (
          <li key={`${i} ${line}`}>{line}</li>
        ))}
      </ul>
    )}
  </>
);
