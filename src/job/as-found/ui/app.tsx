import { useEffect, useMemo, useState } from 'preact/hooks';
import { takeOverKept } from '../../../former/index.ts';
import { jobTitle, openEntries } from '../../job.ts';
import type { EngineSource } from '../../messages.ts';
import { type Subject, subjectPath, systemIdOf } from '../../subject.ts';
import { Caution, href } from '../../ui/parts.tsx';
import { FoundDesk, type FoundJob, type FoundState } from '../desk.ts';
import type { FromFound, ToFound } from '../messages.ts';
import { Cables } from './cables.tsx';
import { Others } from './others.tsx';
import { Readings } from './readings.tsx';
import { Result } from './result.tsx';
import { Share } from './share.tsx';

interface Props {
  readonly subject: Subject;
  /** Ids its entry had before. */
  readonly formerly: readonly string[];
  readonly title: string;
  /** Root-relative address of the parts that arrangements are composed from. */
  readonly parts: string;
}

/** A circuit as it is found: what is marked, and all that follows from it. */
export function App(props: Props) {
  const { subject } = props;
  const [state, setState] = useState<FoundState>();
  const desk = useMemo(() => new FoundDesk(effectsOf(props), setState), []);
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
  const title = props.title || sheet?.title || 'The arrangement composed from parts';
  return (
    <>
      <header class="found-head">
        <h1>As found</h1>
        <p>
          <a href={href(subjectPath(subject))}>{title}</a>
        </p>
        {subject.kind === 'composed' && (
          <p class="quiet">
            Composed from parts. No person has reviewed this arrangement: check it against what is
            in front of you.
          </p>
        )}
        {sheet && (
          <p class="on-paper-only">
            Beside version {sheet.wiring} of its wiring, on{' '}
            {new Date().toLocaleDateString('en-GB', { dateStyle: 'long' })}.
          </p>
        )}
      </header>
      {broken !== '' && (
        <Caution>
          The system could not be worked out here: {broken}.{' '}
          {subject.kind === 'entry' && (
            <>
              Its <a href={href(subjectPath(subject, 'wiring'))}>wiring table</a> needs no script.
            </>
          )}
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
          <Share desk={desk} state={now} title={title} isReported={subject.kind === 'entry'} />
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
function effectsOf({ subject, formerly, parts }: Props) {
  const whole = (path: string) => new URL(path, location.href).href;
  const key = keyOf(subject.kind === 'entry' ? subject.id : subject.specification);
  takeOverKept(key, formerly.map(keyOf));
  const data: EngineSource =
    subject.kind === 'entry'
      ? { address: whole(href(`/job/${subject.id}.json`)) }
      : { specification: subject.specification, parts: whole(parts) };
  return {
    data,
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
      history.replaceState(
        null,
        '',
        fragment === '' ? location.origin + location.pathname + location.search : `#${fragment}`,
      ),
    isPlace: (fragment: string) => fragment !== '' && document.getElementById(fragment) !== null,
    kept: () => {
      try {
        return localStorage.getItem(key);
      } catch {
        return null;
      }
    },
    keep: (text: string | null) => {
      try {
        if (text === null) localStorage.removeItem(key);
        else localStorage.setItem(key, text);
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
      const system = systemIdOf(job);
      if (system === null) return null;
      const isFormer = subject.kind === 'entry' && formerly.includes(system);
      return {
        id: job.id,
        title: jobTitle(job),
        system: isFormer ? subject.id : system,
        readings: openEntries(job).map(({ observation }) => observation),
      };
    },
  };
}
