import { useState } from 'preact/hooks';
import { type Job, jobTitle } from '../job.ts';
import { dayText } from '../record.ts';
import { Sure } from './parts.tsx';

interface Props {
  readonly jobs: readonly Job[];
  readonly onRemove: (job: Job) => void;
  readonly onImport: (file: File) => Promise<string>;
}

/** All jobs, the one worked on last first. */
export const JobsList = ({ jobs, onRemove, onImport }: Props) => (
  <>
    <h1>Jobs</h1>
    {jobs.length === 0 ? (
      <p class="lede">
        A job keeps what you see and measure at one place, ranks what can be wrong, says which test
        tells most next, and ends as a record. Nothing leaves this phone unless you send it.
      </p>
    ) : (
      <ul class="job-list">
        {jobs.map((job) => (
          <JobRow key={job.id} job={job} onRemove={onRemove} />
        ))}
      </ul>
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
        {title !== job.systemTitle && <span class="quiet">{job.systemTitle}</span>}
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
