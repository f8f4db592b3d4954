import { useEffect, useMemo, useState } from 'preact/hooks';
import { startEngine } from '../client.ts';
import { Desk, type DeskState } from '../desk.ts';
import type { Job } from '../job.ts';
import { openJobStore } from '../store.ts';
import { JobView } from './job-view.tsx';
import { JobsList } from './jobs-list.tsx';
import { NewJob } from './new-job.tsx';
import { Caution, href } from './parts.tsx';
import { openBefore, type Route, rememberOpen, routeOf } from './route.ts';
import type { SystemChoice } from './systems.ts';

interface Props {
  readonly systems: readonly SystemChoice[];
}

/** The page of jobs: the list of them, a new one, or one that is open. */
export function App({ systems }: Props) {
  const [state, setState] = useState<DeskState>();
  const [route, setRoute] = useState<Route>(() => routeOf(location));
  const desk = useMemo(
    () =>
      new Desk(
        {
          openStore: () => openJobStore(),
          startEngine: (system, heard) =>
            startEngine(new URL(href(`/job/${system}.json`), location.href).href, heard),
          remember: rememberOpen,
          afterPaint,
        },
        setState,
      ),
    [],
  );
  useEffect(() => {
    void desk.start().then(async () => {
      const first = routeOf(location);
      const before = location.hash === '' && !first.begin ? openBefore() : null;
      // Left open when the page went away: taken up where it was.
      if (before && desk.state.jobs.some(({ id }) => id === before)) goTo(`#${before}`);
    });
    const follow = () => setRoute(routeOf(location));
    const flush = () => desk.flush();
    addEventListener('hashchange', follow);
    addEventListener('pagehide', flush);
    document.addEventListener('visibilitychange', flush);
    return () => {
      removeEventListener('hashchange', follow);
      removeEventListener('pagehide', flush);
      document.removeEventListener('visibilitychange', flush);
    };
  }, [desk]);
  const ready = state?.ready === true;
  useEffect(() => {
    if (!ready) return;
    if (route.job === null) {
      if (desk.state.job) void desk.close();
      return;
    }
    void desk.open(route.job).then((there) => {
      if (there) return;
      desk.say('That job is not kept in this browser.');
      goTo('#all');
    });
  }, [desk, ready, route]);
  if (!state || !ready) {
    return (
      <>
        <h1>Jobs</h1>
        <p role="status">Opening the jobs kept here.</p>
      </>
    );
  }
  const { job, jobs, kept, notice } = state;
  const begin = async (system: SystemChoice, words: { name: string; place: string }) => {
    // What is seen in one system says nothing of another.
    const seen = system.id === route.system ? route.seen : [];
    const made = await desk.begin(system, { ...words, mode: system.mode, seen });
    history.replaceState(null, '', location.pathname);
    goTo(`#${made.id}`);
  };
  return (
    <>
      <Keeping kept={kept} />
      {route.begin ? (
        <NewJob systems={systems} route={route} onBegin={begin} />
      ) : job && route.job === job.id ? (
        <JobView desk={desk} state={state} job={job} onExport={() => void exportJob(desk, job)} />
      ) : (
        <>
          <p role="status" class="said">
            {notice}
          </p>
          <JobsList
            jobs={jobs}
            onRemove={(one) => void desk.remove(one)}
            onImport={(file) => importJob(desk, file)}
          />
        </>
      )}
    </>
  );
}

const goTo = (hash: string): void => {
  location.hash = hash;
};

/** Longest that anything waits for a frame: a page that is not seen paints none. */
const MOST_WAIT_MS = 150;

/** Calls once, after the next frame is painted. */
function afterPaint(call: () => void): void {
  let called = false;
  const once = () => {
    if (called) return;
    called = true;
    call();
  };
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, MOST_WAIT_MS);
}

/** Says where work is not safe. */
const Keeping = ({ kept }: { kept: DeskState['kept'] }) =>
  kept === 'device' ? null : (
    <Caution>
      {kept === 'memory'
        ? 'This browser keeps nothing here (a private window, or storage is off): a job is lost when the page closes. Export it from its record before that.'
        : 'The last change could not be saved: this phone has no room, or took storage away. Export the job from its record now.'}
    </Caution>
  );

/** Hands a job over as a file. What reads and writes files is loaded when it is wanted. */
async function exportJob(desk: Desk, job: Job): Promise<void> {
  const { exportedJob } = await import('../transfer.ts');
  const { name, text, left } = await exportedJob(job, desk.picture);
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  desk.say(
    `Exported as ${name}.${left > 0 ? ` ${left} of its photos stayed here: a file holds 2 MB.` : ''}`,
  );
}

async function importJob(desk: Desk, file: File): Promise<string> {
  const { importedJob } = await import('../transfer.ts');
  const taken = await importedJob(file, desk.state.jobs);
  if ('problem' in taken) return taken.problem;
  await desk.keep(taken.job, taken.pictures);
  return `Imported: ${taken.job.name || taken.job.systemTitle}.`;
}
