import type { ComponentChildren } from 'preact';
import { useErrorBoundary } from 'preact/hooks';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import { type Job, jobTitle } from '../job.ts';
import { AT_START } from '../place.ts';
import type { Choices } from './choices.ts';
import { exportJob } from './files.ts';
import { JobView } from './job-view.tsx';
import { Caution, href } from './parts.tsx';
import type { DeskOfPage } from './use-desk.ts';

interface Props extends DeskOfPage {
  readonly choices: Choices;
  /** What the page is called while no job is open. */
  readonly title: string;
  /** What else the page shows, where its address names no job. */
  readonly children: ComponentChildren;
}

/** The open job, whatever page it is worked at; or what keeps jobs from being opened there. */
export function OpenJob({ desk, state, route, choices, title, children }: Props) {
  if (!state?.ready)
    return (
      <>
        <h1>{title}</h1>
        {state?.waiting ? (
          <Caution>
            These pages are open in another tab too, in an older version that holds the jobs. Close
            that tab: the jobs then open here by themselves.
          </Caution>
        ) : (
          <p role="status">Opening the jobs kept here.</p>
        )}
      </>
    );
  const { job, kept } = state;
  if (kept === 'closed') return <TakenOver title={job ? jobTitle(job) : title} />;
  return (
    <>
      <Keeping kept={kept} />
      {job && route.job === job.id ? (
        <Guarded key={job.id} desk={desk} job={job}>
          <JobView
            desk={desk}
            state={state}
            job={job}
            choices={choices}
            onExport={() => void exportJob(desk, job)}
          />
        </Guarded>
      ) : (
        children
      )}
    </>
  );
}

/** What to know where work is not safe, by where it is kept. */
const NOT_SAFE: Readonly<Record<Exclude<DeskState['kept'], 'device' | 'closed'>, string>> = {
  memory:
    'This browser keeps nothing here (a private window, or storage is off): a job is lost when the page closes. Export it from its record before that.',
  newer:
    'The jobs in this browser were saved by a newer version of these pages, and nothing is written over them. Load the newer version to go on with them, or keep their files. A job begun now is lost when the page closes: export it from its record before that.',
  unopened:
    'The jobs in this browser could not be opened, and nothing of them was changed. Close other tabs of these pages and load this one anew. A job begun now is lost when the page closes: export it from its record before that.',
  unread:
    'The list of jobs could not be read, and nothing of it was changed. Load the page anew to try again.',
  unsaved:
    'The last change could not be saved: this phone has no room, or took storage away. Export the job from its record now.',
};

const Keeping = ({ kept }: { kept: keyof typeof NOT_SAFE | 'device' }) =>
  kept === 'device' ? null : <Caution>{NOT_SAFE[kept]}</Caution>;

/** Another tab has the jobs in a newer version: what is entered here could not be saved. */
const TakenOver = ({ title }: { title: string }) => (
  <>
    <h1>{title}</h1>
    <Caution>
      A newer version of these pages is open in another tab and keeps the jobs from now on. All that
      was entered here is saved. Load this page anew to go on.
    </Caution>
    <button type="button" class="firm" onClick={() => location.reload()}>
      Load this page anew
    </button>
  </>
);

interface GuardedProps {
  readonly desk: Desk;
  readonly job: Job;
  readonly children: ComponentChildren;
}

/** A job whose page fails is not an empty screen: it is kept, and can be taken away. */
function Guarded({ desk, job, children }: GuardedProps) {
  const [failure, again] = useErrorBoundary();
  if (failure === undefined) return children;
  return (
    <>
      <h1>{jobTitle(job)}</h1>
      <Caution>
        This page of the job could not be shown:{' '}
        {failure instanceof Error ? failure.message : String(failure)}. The job is kept as it is.
      </Caution>
      <div class="pair">
        <button
          type="button"
          class="firm"
          onClick={() => {
            desk.turn(AT_START);
            again();
          }}
        >
          Go to its beginning
        </button>
        <button type="button" class="plain" onClick={() => void exportJob(desk, job)}>
          Export
        </button>
      </div>
      <p class="ways">
        <a href={`${href('/job/')}#all`}>All jobs</a>
      </p>
    </>
  );
}
