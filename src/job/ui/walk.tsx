import './index.css';
import { render } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import { diagramStyles } from '../../diagram/index.ts';
import type { Published } from '../published.ts';
import type { Choices } from './choices.ts';
import { OpenJob } from './open-job.tsx';
import { href } from './parts.tsx';
import { useDesk } from './use-desk.ts';

/**
 * A published sequence walked on its own page, as a visit like any other: `#new` begins one,
 * which asks what the sequence asks until an answer leads off it; its id opens it again.
 */
function Walk({ system, title, beginning }: Published) {
  const choices = useMemo(() => choicesFor(system), []);
  const page = useDesk(choices.systems, '');
  const { desk, state, route } = page;
  const ready = state?.ready === true;
  useEffect(() => {
    if (!ready || !route.begin) return;
    const begin = async () => {
      const { id } = await desk.begin(system, { name: '', place: '', ...beginning });
      // In its place: the way back leads to the page as it was.
      location.replace(`#${id}`);
    };
    void begin();
  }, [desk, ready, route.begin]);
  const job = state?.job;
  useEffect(() => {
    // A visit to another system has its page elsewhere.
    if (job && job.id === route.job && job.system !== system.id)
      location.replace(`${href('/job/')}#${job.id}`);
  }, [job?.id, route.job]);
  const isWalked = route.begin || route.job !== null;
  useEffect(() => {
    document.body.classList.toggle('bar-own', isWalked);
    document.body.classList.toggle('bar-search', !isWalked);
  }, [isWalked]);
  const notice = state?.notice && (
    <p role="status" class="said">
      {state.notice}
    </p>
  );
  // Whoever went back to read goes on with the visit begun, and does not begin another.
  const begun = state?.jobs.find(
    (one) =>
      one.finished === null &&
      one.system === system.id &&
      one.sequence === beginning.sequence &&
      one.history === beginning.history,
  );
  if (!isWalked)
    return (
      <>
        {notice}
        {begun && (
          <a class="plain" href={`#${begun.id}`}>
            Go on with the job begun here
          </a>
        )}
      </>
    );
  return (
    <OpenJob {...page} choices={choices} title={title}>
      {notice}
    </OpenJob>
  );
}

/** What a visit that has its system needs of the lists of the page of jobs: this one system. */
const choicesFor = ({ id, title, wiring, mode }: Published['system']): Choices => ({
  systems: [
    { id, title, wiring, mode, formerly: [], summary: '', answers: [], recognise: [], words: '' },
  ],
  complaints: [],
  questions: [],
});

/** The drawing of what is found has its rules with the job's own, for the page has no drawing. */
const rules = new CSSStyleSheet();
rules.replaceSync(diagramStyles([]));
document.adoptedStyleSheets.push(rules);

/** Lays the walk into the empty place that its address leads to, before what is said of the sequence. */
const place = document.querySelector<HTMLElement>('#new')!;
render(<Walk {...(JSON.parse(place.dataset.published!) as Published)} />, place);
