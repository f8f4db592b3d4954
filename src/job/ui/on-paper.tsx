import { useEffect, useState } from 'preact/hooks';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import type { Job } from '../job.ts';
import type { Sheet } from '../sheet.ts';
import { nextOf } from '../visits.ts';
import { JobSheet } from './job-sheet.tsx';
import { duesOf } from './proving-list.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
}

/** What a job gives to paper from any of its pages but the record: its next act, and the record so far. */
export function OnPaper({ desk, state, job, sheet }: Props) {
  const [isPrinted, setPrinted] = useState(false);
  useEffect(() => {
    // Beside a page that is walked, paper has that page.
    const print = () => setPrinted(!document.querySelector('.sequence-page'));
    const done = () => setPrinted(false);
    addEventListener('beforeprint', print);
    addEventListener('afterprint', done);
    return () => {
      removeEventListener('beforeprint', print);
      removeEventListener('afterprint', done);
    };
  }, []);
  if (!isPrinted) return null;
  const next = nextOf(state, job);
  return (
    <section>
      {next && (
        <p class="job-sheet next-on-paper">
          <b>Next act</b> {next}
        </p>
      )}
      <JobSheet job={job} sheet={sheet} dueOf={duesOf(state)} picture={desk.picture} />
    </section>
  );
}
