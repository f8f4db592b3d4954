import { useEffect, useMemo, useState } from 'preact/hooks';
import { takeOverKept } from '../../../former/index.ts';
import { jobTitle, openEntries } from '../../job.ts';
import { Caution, href } from '../../ui/parts.tsx';
import { FoundDesk, type FoundJob, type FoundState } from '../desk.ts';
import type { FromFound, ToFound } from '../messages.ts';
import { Cables } from './cables.tsx';
import { Others } from './others.tsx';
import { Readings } from './readings.tsx';
import { Result } from './result.tsx';
import { Share } from './share.tsx';

interface Props {
  readonly system: string;
  /** Ids it had before. */
  readonly formerly: readonly string[];
  readonly title: string;
}

/** A circuit as it is found: what is marked, and all that follows from it. */
export function App({ system, formerly, title }: Props) {
  const [state, setState] = useState<FoundState>();
  const desk = useMemo(() => new FoundDesk(effectsOf(system, formerly), setState), [system]);
  useEffect(() => {
    const follow = () => desk.follow();
    addEventListener('hashchange', follow);
    addEventListener('beforeprint', unfold);
    return () => {
      removeEventListener('hashchange', follow);
      removeEventListener('beforeprint', unfold);
    };
  }, [desk]);
  const now = state ?? desk.state;
  const { sheet, broken, message, offer, marks, result } = now;
  return (
    <>
      <header class="found-head">
        <h1>As found</h1>
        <p>
          <a href={href(`/systems/${system}/`)}>{title}</a>
        </p>
        {sheet && (
          <p class="on-paper-only">
            Beside version {sheet.wiring} of its wiring, on{' '}
            {new Date().toLocaleDateString('en-GB', { dateStyle: 'long' })}.
          </p>
        )}
      </header>
      {broken !== '' && (
        <Caution>
          The system could not be worked out here: {broken}. Its{' '}
          <a href={href(`/systems/${system}/wiring/`)}>wiring table</a> needs no script.
        </Caution>
      )}
      <p role="status" class="said">
        {message}
      </p>
      {offer && (
        <p>
          <button type="button" class="plain" onClick={() => desk.takeOffer()}>
            {offer.kind === 'outdated'
              ? 'Show what it marks, on the wiring as it is here'
              : 'Go back to what was marked here before'}
          </button>
        </p>
      )}
      {!sheet && broken === '' && <p role="status">Opening the system.</p>}
      {sheet && (
        <>
          <p class="lede">
            Mark what is not as drawn. What it does, what it endangers and what to change follow at
            once, worked out on the same circuit as the readings.
          </p>
          <Caution>
            Cores are traced, drawn and moved only isolated, locked off and proved dead with a
            tester proved before and after:{' '}
            <a href={href('/procedures/safe-isolation/')}>safe isolation</a>. A mistake in the
            wiring may have put mains where none belongs, and the isolator may not isolate. Sealed
            combustion covers are for a Gas Safe registered engineer alone.
          </Caution>
          <Cables desk={desk} sheet={sheet} marks={marks} />
          <Others desk={desk} sheet={sheet} marks={marks} />
          <Result state={now} />
          <Readings desk={desk} state={now} />
          <Share desk={desk} state={now} title={title} />
          {result !== null && result.differences.length > 0 && (
            <nav class="found-bar" aria-label="Result">
              <button type="button" class="main-act" onClick={showResult}>
                {barText(result.differences.length, result.hazards.length)}
              </button>
            </nav>
          )}
        </>
      )}
    </>
  );
}

/** Opens what follows: paper folds nothing. */
function unfold(): void {
  for (const details of document.querySelectorAll<HTMLDetailsElement>('#result details'))
    details.open = true;
}

/** Goes to what follows; the address keeps its marks. */
function showResult(): void {
  const place = document.querySelector<HTMLElement>('#result');
  place?.scrollIntoView();
  place?.focus({ preventScroll: true });
}

/** That none of the dangers looked for is there is no proof of safety, and so not said here. */
const barText = (differences: number, hazards: number) =>
  `See what follows: ${differences} ${differences === 1 ? 'difference' : 'differences'}${
    hazards === 0 ? '' : `, ${hazards} ${hazards === 1 ? 'danger' : 'dangers'}`
  }`;

const keyOf = (system: string) => `proveline.as-found.${system}`;

/** The browser as the desk needs it. */
function effectsOf(system: string, formerly: readonly string[]) {
  takeOverKept(keyOf(system), formerly.map(keyOf));
  return {
    data: new URL(href(`/job/${system}.json`), location.href).href,
    startWorker: (listen: (message: FromFound) => void) => {
      const worker = new Worker(new URL('../worker.ts', import.meta.url), { type: 'module' });
      worker.addEventListener('message', ({ data }: MessageEvent<FromFound>) => listen(data));
      worker.addEventListener('error', ({ message }) =>
        listen({ type: 'failed', reason: message || 'the engine could not be started' }),
      );
      return (message: ToFound) => worker.postMessage(message);
    },
    fragment: () => location.hash.slice(1),
    setFragment: (fragment: string) =>
      history.replaceState(null, '', fragment === '' ? location.pathname : `#${fragment}`),
    isPlace: (fragment: string) => fragment !== '' && document.getElementById(fragment) !== null,
    kept: () => {
      try {
        return localStorage.getItem(keyOf(system));
      } catch {
        return null;
      }
    },
    keep: (text: string | null) => {
      try {
        if (text === null) localStorage.removeItem(keyOf(system));
        else localStorage.setItem(keyOf(system), text);
      } catch {
        // Private windows refuse storage: the address holds the marks all the same.
      }
    },
    job: async (id: string): Promise<FoundJob | null> => {
      // The store of jobs is loaded only where the address names a job.
      const { openJobStore } = await import('../../database.ts');
      const kept = await (await openJobStore()).get(id).catch(() => undefined);
      if (!kept || !('job' in kept)) return null;
      const { job } = kept;
      if (job.system === null) return null;
      return {
        id: job.id,
        title: jobTitle(job),
        system: formerly.includes(job.system) ? system : job.system,
        readings: openEntries(job).map(({ observation }) => observation),
      };
    },
  };
}
