import { useState } from 'preact/hooks';
import { canShare, share } from '../../../field/hand-out.ts';
import { setAsFound } from '../../job.ts';
import { href, Sure } from '../../ui/parts.tsx';
import type { FoundDesk, FoundState } from '../desk.ts';

interface Props {
  readonly desk: FoundDesk;
  readonly state: FoundState;
  readonly title: string;
  /** Whether a report of the page may go with it: it is of an entry. */
  readonly isReported: boolean;
}

/** What is done with the marks: taken back, sent on, cleared. */
export function Share({ desk, state, title, isReported }: Props) {
  const [said, setSaid] = useState('');
  const link = desk.link(location.origin + location.pathname + location.search);
  const nothing = !state.result || state.result.differences.length === 0;
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(link!);
      setSaid('Link copied.');
    } catch {
      setSaid('This browser does not let a page copy: copy the address from its bar.');
    }
  };
  const send = async () => {
    const handed = await share({ title: `${title}: as found`, url: link! });
    if (handed === 'refused') setSaid('This phone did not take it: copy the link.');
  };
  const { job } = state;
  const keep = async () => {
    const kept = await keptWith(job!.id, new URL(link!).hash.slice(1));
    setSaid(kept ? 'Kept with the job.' : 'It could not be kept with the job: copy the link.');
  };
  return (
    <section aria-labelledby="share-title" class="found-share">
      <h2 id="share-title">Send or keep it</h2>
      <p class="quiet">
        The link holds all that is marked, and the readings shown here: no place, no name, nothing
        else. The marks stay in this browser too.
      </p>
      {link === null && !nothing && (
        <p>There is more marked than a link holds. Send the sheet as a print instead.</p>
      )}
      {job && (
        <div class="pair">
          <button type="button" class="firm" disabled={nothing || !link} onClick={keep}>
            Keep with the job
          </button>
          <a class="plain" href={href(`/job/#${job.id}`)}>
            Back to {job.title}
          </a>
        </div>
      )}
      <div class="pair">
        {canShare() && (
          <button type="button" class="firm" disabled={nothing || !link} onClick={send}>
            Share
          </button>
        )}
        <button type="button" class="plain" disabled={nothing || !link} onClick={copy}>
          Copy link
        </button>
        {isReported && !nothing && link && (
          <a class="plain" href={reportOf(link)}>
            Report it
          </a>
        )}
        <button type="button" class="plain" disabled={nothing} onClick={() => print()}>
          Print
        </button>
        <button type="button" class="plain" disabled={!state.undoable} onClick={() => desk.undo()}>
          Take the last mark back
        </button>
      </div>
      {!nothing && (
        <Sure
          label="Clear all marks"
          question="Clear everything that is marked here? It can be taken back until the page is left."
          yes="Clear it"
          onYes={desk.clear}
        />
      )}
      <p role="status" class="said">
        {said}
      </p>
    </section>
  );
}

/** The page that makes a report, with the marks behind its `#`: they stay on the phone until it is sent. */
function reportOf(link: string): string {
  const { pathname, hash } = new URL(link);
  const page = pathname.slice(href('/').length);
  return `${href('/report/')}?page=${page}${hash}`;
}

/** Keeps a fragment with a job. @returns whether it is kept. */
async function keptWith(id: string, fragment: string): Promise<boolean> {
  try {
    const { openJobStore } = await import('../../database.ts');
    const store = await openJobStore();
    const kept = await store.get(id);
    if (!kept || !('job' in kept)) return false;
    const job = setAsFound(kept.job, fragment);
    return await store.put({ ...kept, job, saved: kept.saved + 1 });
  } catch {
    return false;
  }
}
