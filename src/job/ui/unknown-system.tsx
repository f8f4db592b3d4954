import type { Desk } from '../desk.ts';
import { changeJob, type Job } from '../job.ts';
import { MOST_TEXT } from '../limits.ts';
import { First } from './begin.tsx';
import { type Choices, toldOf } from './choices.ts';
import { ChooseSystem } from './choose-system.tsx';
import { href, Words } from './parts.tsx';

interface Props {
  readonly desk: Desk;
  readonly job: Job;
  readonly choices: Choices;
}

/** A job whose system nobody knows yet: what to look at first, and the way to find out. */
export function UnknownSystem({ desk, job, choices }: Props) {
  const complaint = choices.complaints.find(({ id }) => id === job.complaint?.id) ?? null;
  return (
    <>
      <First complaint={complaint} />
      <ChooseSystem
        choices={choices}
        complaint={complaint}
        onPick={(system) => desk.recognise(system, toldOf(complaint, system.id))}
      />
      <p>
        <a href={href('/compose/')}>Not among them? Put it together from its parts</a>: readings and
        wiring follow, and this job stays here.
      </p>
      <Words
        id="job-notes"
        label="Notes"
        value={job.notes}
        most={MOST_TEXT}
        lines={3}
        onText={(notes) => desk.act((now) => changeJob(now, { notes }), 'notes')}
      />
      <p class="ways">
        <a href="#all">All jobs</a>
      </p>
    </>
  );
}
