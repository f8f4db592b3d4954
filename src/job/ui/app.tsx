import { useEffect } from 'preact/hooks';
import { Begin, type Begun } from './begin.tsx';
import type { Choices } from './choices.ts';
import { importJob, keepFile } from './files.ts';
import { JobsList } from './jobs-list.tsx';
import { OpenJob } from './open-job.tsx';
import { goTo, openBefore, routeOf } from './route.ts';
import { useDesk } from './use-desk.ts';

interface Props {
  readonly choices: Choices;
  /** Root-relative address of the parts that arrangements are composed from. */
  readonly parts: string;
}

/** The page of jobs: the list of them, a new one, or one that is open. */
export function App({ choices, parts }: Props) {
  const page = useDesk(choices.systems, parts);
  const { desk, state, route } = page;
  const ready = state?.ready === true;
  useEffect(() => {
    if (!ready || location.hash !== '' || routeOf(location).begin) return;
    const before = openBefore();
    // Left open when the page went away: taken up where it was.
    if (before && desk.state.jobs.some(({ id }) => id === before)) goTo(`#${before}`);
  }, [desk, ready]);
  const begin = async ({ complaint, history: before, system, ...more }: Begun) => {
    const made = await desk.begin(system, {
      name: '',
      place: '',
      complaint: complaint && { id: complaint.id, words: complaint.words },
      history: before,
      ...more,
    });
    // With its host: a path that begins with two strokes would name one.
    history.replaceState(null, '', location.origin + location.pathname);
    goTo(`#${made.id}`);
  };
  return (
    <OpenJob {...page} choices={choices} title="Jobs">
      {route.begin ? (
        <Begin choices={choices} route={route} onBegin={(begun) => void begin(begun)} />
      ) : (
        <>
          <p role="status" class="said">
            {state?.notice}
          </p>
          <JobsList
            jobs={state?.jobs ?? []}
            unread={state?.unread ?? []}
            onRemove={({ id, photos }) =>
              void desk.remove({ id, photos: photos.map((photo) => photo.id) })
            }
            onRemoveUnread={(one) => void desk.remove(one)}
            onKeepFile={(one) => void keepFile(desk, one)}
            onImport={(file) => importJob(desk, file)}
          />
        </>
      )}
    </OpenJob>
  );
}
