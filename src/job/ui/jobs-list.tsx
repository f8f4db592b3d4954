import { useState } from 'preact/hooks';
import { isKnown, type Job, jobTitle } from '../job.ts';
import { dayText } from '../record.ts';
import type { UnreadJob } from '../store.ts';
import { Sure } from './parts.tsx';

interface Props {
  readonly jobs: readonly Job[];
  readonly unread: readonly UnreadJob[];
  readonly onRemove: (job: Job) => void;
  readonly onRemoveUnread: (job: UnreadJob) => void;
  readonly onKeepFile: (job: UnreadJob) => void;
  readonly onImport: (file: File) => Promise<string>;
}

/** All jobs, the one worked on last first; then those that cannot be read here. */
export const JobsList = ({ jobs, unread, onRemove, onImport, ...act }: Props) => (
  <>
    <h1>Jobs</h1>
    {jobs.length + unread.length === 0 && (
      <p class="lede">
        A job keeps what you see and measure at one place, ranks what can be wrong, says which test
        tells most next, and ends as a record. Nothing leaves this phone unless you send it.
      </p>
    )}
    {jobs.length > 0 && (
      <ul class="job-list">
        {jobs.map((job) => (
          <JobRow key={job.id} job={job} onRemove={onRemove} />
        ))}
      </ul>
    )}
    {unread.length > 0 && (
      <section aria-labelledby="unread-title">
        <h2 id="unread-title">Kept, but not readable here</h2>
        <ul class="job-list unread-list">
          {unread.map((job) => (
            <UnreadRow key={job.id} job={job} {...act} />
          ))}
        </ul>
      </section>
    )}
    <Import onImport={onImport} />
    <nav class="job-bar" aria-label="Begin">
      <a class="main-act" href="#new">
        New job
      </a>
    </nav>
  </>
);

function JobRow({ job, onRemove }: { job: Job; onRemove: (job: Job) => void }) {
  const title = jobTitle(job);
  return (
    <li>
      <a class="job-link" href={`#${job.id}`}>
        <strong>{title}</strong>
        {title !== job.place && job.place !== '' && <span class="quiet">{job.place}</span>}
        {title !== job.systemTitle && isKnown(job) && <span class="quiet">{job.systemTitle}</span>}
        <span class="quiet">
          {job.finished ? `Finished ${dayText(job.finished)}` : `Open, ${dayText(job.changed)}`}
        </span>
      </a>
      <Sure
        label={`Delete ${title}`}
        question={`Delete ${title} with everything in it? It cannot be brought back.`}
        yes="Delete it"
        onYes={() => onRemove(job)}
      />
    </li>
  );
}

/** A job that this version cannot read: its file can be kept, and only the reader deletes it. */
function UnreadRow({
  job,
  onRemoveUnread,
  onKeepFile,
}: { job: UnreadJob } & Pick<Props, 'onRemoveUnread' | 'onKeepFile'>) {
  const title = job.title || 'A job without a name';
  return (
    <li>
      <p>
        <strong>{title}</strong>{' '}
        <span class="quiet">
          {job.at ? `Saved ${dayText(job.at)}` : 'Saved at a time not known'}
        </span>
      </p>
      <p>
        {job.problem === 'newer'
          ? `This job was saved by a newer version of these pages (${job.why.replace(/\.$/, '')}), so this version leaves it as it is. Load the newer version to go on with it, or keep its file.`
          : `This job is damaged and cannot be read by this version: ${job.why.replace(/\.$/, '')}. Keep its file: it holds all that is left of the job.`}
      </p>
      <p>
        <button type="button" class="plain" onClick={() => onKeepFile(job)}>
          Keep its file
        </button>
      </p>
      {job.removable && (
        <Sure
          label={`Delete ${title}`}
          question={`Delete ${title}? What is left of it cannot be brought back: keep its file first.`}
          yes="Delete it"
          onYes={() => onRemoveUnread(job)}
        />
      )}
    </li>
  );
}

/** Takes in a job that was exported elsewhere. */
function Import({ onImport }: Pick<Props, 'onImport'>) {
  const [said, setSaid] = useState('');
  return (
    <section class="import" aria-labelledby="import-title">
      <h2 id="import-title">Import a job</h2>
      <p class="quiet">
        A file exported from this reference, on this phone or another. It is checked before anything
        is kept.
      </p>
      <label class="file-button">
        <input
          type="file"
          accept=".json,application/json"
          onChange={async (event) => {
            const input = event.currentTarget;
            const file = input.files?.[0];
            if (!file) return;
            setSaid('Reading the file.');
            setSaid(await onImport(file));
            input.value = '';
          }}
        />
        <span>Choose a file</span>
      </label>
      <p role="status" class="said">
        {said}
      </p>
    </section>
  );
}
