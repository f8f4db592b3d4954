import type { ComponentChildren } from 'preact';
import { useEffect, useErrorBoundary, useMemo, useState } from 'preact/hooks';
import { startEngine } from '../client.ts';
import { openJobStore } from '../database.ts';
import { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import { newDraft, withPoint } from '../draft.ts';
import { type Job, jobTitle } from '../job.ts';
import { keepVisits, readVisits } from '../kept-visits.ts';
import type { EngineSource } from '../messages.ts';
import { AT_START } from '../place.ts';
import { pointIn } from '../sheet.ts';
import type { UnreadJob } from '../store.ts';
import type { Subject } from '../subject.ts';
import type { ExportedJob } from '../transfer.ts';
import { visitsOf } from '../visits.ts';
import { Begin, type Begun } from './begin.tsx';
import { type Choices, idNow } from './choices.ts';
import { JobView } from './job-view.tsx';
import { JobsList } from './jobs-list.tsx';
import { Caution, href } from './parts.tsx';
import { openBefore, type Route, rememberOpen, routeOf } from './route.ts';

interface Props {
  readonly choices: Choices;
  /** Root-relative address of the parts that arrangements are composed from. */
  readonly parts: string;
}

/** Where the engine finds what a job is about. */
function sourceOf(subject: Subject, parts: string): EngineSource {
  const whole = (path: string) => new URL(path, location.href).href;
  return subject.kind === 'composed'
    ? { specification: subject.specification, parts: whole(parts) }
    : { address: whole(href(`/job/${subject.id}.json`)) };
}

/** The page of jobs: the list of them, a new one, or one that is open. */
export function App({ choices, parts }: Props) {
  const { systems } = choices;
  const [state, setState] = useState<DeskState>();
  const routeNow = (): Route => {
    const route = routeOf(location);
    return { ...route, system: route.system && idNow(systems, route.system) };
  };
  const [route, setRoute] = useState(routeNow);
  const desk = useMemo(
    () =>
      new Desk(
        {
          openStore: openJobStore,
          systemNow: (id) => idNow(systems, id),
          startEngine: (subject, heard) => startEngine(sourceOf(subject, parts), heard),
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
    const follow = () => setRoute(routeNow());
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
    const open = async (id: string) => {
      if (await desk.open(id)) return;
      // Closing a job takes away what was said in it, so this is said after.
      await desk.close();
      desk.say(
        desk.state.unread.some((one) => one.id === id)
          ? 'That job cannot be read by these pages: it stands in the list, with its file.'
          : 'That job is not kept in this browser.',
      );
      goTo('#all');
    };
    open(route.job).catch((failure: unknown) => {
      const why = failure instanceof Error ? failure.message : String(failure);
      desk.say(`That job could not be opened: ${why}. It is kept as it is.`);
      goTo('#all');
    });
  }, [desk, ready, route]);
  const { specification } = route;
  useEffect(() => {
    // Composed for the open job whose system nobody knew: it is taken into it once.
    if (!ready || specification === null || route.job === null) return;
    if (state?.job?.id !== route.job) return;
    history.replaceState(null, '', `${location.origin}${location.pathname}#${route.job}`);
    desk.recogniseComposed(specification);
    setRoute(routeNow());
  }, [desk, ready, route, state?.job?.id]);
  const { terminal } = route;
  const sheet = state?.job?.id === route.job ? state?.sheet : null;
  useEffect(() => {
    if (terminal === null || !sheet || !desk.state.job) return;
    // Once: whoever turns elsewhere is not brought back by the address.
    history.replaceState(null, '', `#${desk.state.job.id}`);
    if (pointIn(sheet, terminal))
      desk.turn({
        view: 'readings',
        draft: withPoint(sheet, newDraft(desk.state.job), terminal),
      });
    setRoute(routeNow());
  }, [desk, terminal, sheet]);
  useEffect(() => {
    if (state?.ready && state.kept === 'device') keepVisits(visitsOf(state, readVisits() ?? []));
  }, [state]);
  if (!state || !ready) {
    return (
      <>
        <h1>Jobs</h1>
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
  }
  const { job, jobs, unread, kept, notice } = state;
  if (kept === 'closed') return <TakenOver title={job ? jobTitle(job) : 'Jobs'} />;
  const begin = async ({ complaint, history: before, system, seen, specification }: Begun) => {
    const made = await desk.begin(system, {
      name: '',
      place: '',
      complaint: complaint && { id: complaint.id, words: complaint.words },
      history: before,
      seen,
      specification,
    });
    // With its host: a path that begins with two strokes would name one.
    history.replaceState(null, '', location.origin + location.pathname);
    goTo(`#${made.id}`);
  };
  return (
    <>
      <Keeping kept={kept} />
      {route.begin ? (
        <Begin choices={choices} route={route} onBegin={(begun) => void begin(begun)} />
      ) : job && route.job === job.id ? (
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
        <>
          <p role="status" class="said">
            {notice}
          </p>
          <JobsList
            jobs={jobs}
            unread={unread}
            onRemove={({ id, photos }) =>
              void desk.remove({ id, photos: photos.map((photo) => photo.id) })
            }
            onRemoveUnread={(one) => void desk.remove(one)}
            onKeepFile={(one) => void keepFile(desk, one)}
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

/** Longest wait for a frame, ms: a page in the background paints no frames. */
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
        <a href="#all">All jobs</a>
      </p>
    </>
  );
}

/** Hands a job over as a file. What reads and writes files is loaded when it is wanted. */
async function exportJob(desk: Desk, job: Job): Promise<void> {
  const { exportedJob } = await import('../transfer.ts');
  download(desk, await exportedJob(job, desk.picture));
}

/** Hands a job that cannot be read here over as a file. */
async function keepFile(desk: Desk, unread: UnreadJob): Promise<void> {
  const { exportedUnread } = await import('../transfer.ts');
  download(desk, await exportedUnread(unread, desk.picture));
}

function download(desk: Desk, { name, text, left }: ExportedJob): void {
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
  const { jobs, unread } = desk.state;
  const taken = await importedJob(
    file,
    [...jobs, ...unread].map(({ id }) => id),
  );
  if ('problem' in taken) return taken.problem;
  try {
    await desk.keep(taken.job, taken.pictures);
  } catch (failure) {
    return `The job could not be kept: ${failure instanceof Error ? failure.message : String(failure)}`;
  }
  return `Imported: ${taken.job.name || taken.job.systemTitle}.`;
}
