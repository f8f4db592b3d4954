import { useEffect, useState } from 'preact/hooks';
import type { StandingWords } from '../../composer/standing-words.ts';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import { type Job, jobTitle } from '../job.ts';
import { lastAct } from '../last-act.ts';
import { VIEWS, type View } from '../place.ts';
import { modeIn } from '../sheet.ts';
import { subjectOf, subjectPath, systemIdOf } from '../subject.ts';
import type { Choices } from './choices.ts';
import { NextView } from './next-view.tsx';
import { OnPaper } from './on-paper.tsx';
import { Caution, href } from './parts.tsx';
import { ReadingForm } from './reading-form.tsx';
import { ReadingsView } from './readings-view.tsx';
import { RecordView } from './record-view.tsx';
import type { SafetyStep, Supply } from './safety.tsx';
import { SeenView } from './seen-view.tsx';
import { UnknownSystem } from './unknown-system.tsx';
import { useTopOf } from './use-top.ts';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly choices: Choices;
  readonly onExport: () => void;
}

const NAMES: Readonly<Record<View, string>> = {
  next: 'Next',
  seen: 'Seen',
  readings: 'Readings',
  record: 'Record',
};

/** One job: its title, the page of it that is open, and the tabs under the thumb. */
export function JobView({ desk, state, job, choices, onExport }: Props) {
  const { sheet, place, broken } = state;
  const subject = subjectOf(job);
  const isolated = sheet ? modeIn(sheet, job.mode)?.isolated === true : false;
  const [ticks, onTick] = useTicks(
    isolated ? 'isolated' : 'on',
    `${job.entries.length} ${job.mode}`,
  );
  useTopOf(`${place.view} ${place.draft === null ? '' : 'reading'}`);
  return (
    <div class="job-page">
      <header class="job-head">
        <h1>{jobTitle(job)}</h1>
        {subject && (
          <a class="job-system" href={href(subjectPath(subject))}>
            {jobTitle(job) === job.systemTitle || job.systemTitle === ''
              ? 'Its page'
              : job.systemTitle}
          </a>
        )}
      </header>
      <LastLine desk={desk} state={state} job={job} />
      {broken !== '' && (
        <>
          <Caution>
            {job.composed
              ? `The arrangement of this job can no longer be put together from the parts of this reference: one was withdrawn or is wired otherwise now, or the job comes from another firm. ${broken}`
              : choices.systems.some(({ id }) => id === job.system)
                ? `The system of this job could not be worked out here, so nothing is ranked: ${broken}.`
                : `This reference no longer has the system of this job, ${job.systemTitle}: it was withdrawn, or the job comes from another firm.`}{' '}
            What was entered is kept, and can be taken away as a file.
          </Caution>
          <button type="button" class="plain" onClick={onExport}>
            Export
          </button>
        </>
      )}
      {!subject && <UnknownSystem desk={desk} job={job} choices={choices} />}
      {subject && !sheet && broken === '' && <p role="status">Opening the system.</p>}
      {sheet && job.composed && systemIdOf(job) !== null && systemIdOf(job) !== sheet.id && (
        <>
          <Caution>
            The parts of this arrangement have changed since this job was begun: its drawing,
            readings and ranking are those of now. What was entered is kept as it was; what the
            arrangement no longer has is named and left out.
          </Caution>
          <button type="button" class="plain" onClick={onExport}>
            Export
          </button>
        </>
      )}
      {sheet?.composed && <NotInOrder wrong={sheet.composed.wrong} />}
      {sheet?.composed && (
        <Proven said={sheet.composed.standing} isOpen={place.view !== 'next' && !place.draft} />
      )}
      {sheet && job.system !== null && job.wiring !== sheet.wiring && (
        <p class="said">
          The wiring of this entry is now version {sheet.wiring}; this job was begun with{' '}
          {job.wiring}.
        </p>
      )}
      {sheet &&
        (place.draft ? (
          <ReadingForm
            desk={desk}
            state={state}
            job={job}
            sheet={sheet}
            draft={place.draft}
            ticks={ticks}
            onTick={onTick}
          />
        ) : place.view === 'next' ? (
          <NextView
            desk={desk}
            state={state}
            job={job}
            sheet={sheet}
            ticks={ticks}
            onTick={onTick}
          />
        ) : place.view === 'seen' ? (
          <SeenView desk={desk} state={state} job={job} sheet={sheet} />
        ) : place.view === 'readings' ? (
          <ReadingsView desk={desk} state={state} job={job} sheet={sheet} />
        ) : (
          <RecordView desk={desk} state={state} job={job} sheet={sheet} onExport={onExport} />
        ))}
      {sheet && (place.draft !== null || place.view !== 'record') && (
        <OnPaper desk={desk} state={state} job={job} sheet={sheet} />
      )}
      {!place.draft && subject && (
        <nav class="job-tabs" aria-label="Pages of this job">
          {VIEWS.map((view) => (
            <button
              key={view}
              type="button"
              aria-current={place.view === view ? 'page' : undefined}
              onClick={() => desk.turn({ view })}
            >
              {NAMES[view]}
            </button>
          ))}
        </nav>
      )}
    </div>
  );
}

/** What is wrong with an arrangement from parts, before anything that is read in it. */
const NotInOrder = ({ wrong }: { wrong: StandingWords['wrong'] }) =>
  wrong.length === 0 ? null : (
    <Caution>
      Not in order: these parts, wired so, are not safe or do not do what they must. If it is wired
      so in front of you, do not leave it on.{' '}
      {wrong.map(({ title, said }) => `${title}. ${said}`).join(' ')}
    </Caution>
  );

/**
 * What is proven of an arrangement from parts, and how its tests are chosen. Where the next act
 * stands, only that nobody reviewed it is unfolded: the answers stay under the thumb.
 */
const Proven = ({ said, isOpen }: { said: string; isOpen: boolean }) => (
  <details class="fold proven" open={isOpen}>
    <summary>
      <b>From parts</b> <span class="quiet">reviewed by no person</span>
    </summary>
    <p>
      {said} No order of tests is proven for it: each next one is chosen step by step, as what tells
      most for the time it takes.
    </p>
  </details>
);

/** What was said or done last, and the way to take it back, which says what it takes back. */
function LastLine({ desk, state, job }: Pick<Props, 'desk' | 'state' | 'job'>) {
  const { notice, sheet } = state;
  const before = state.before.at(-1);
  const last = before ? lastAct(sheet, before, job) : '';
  return (
    <div class="last-line">
      <Echo notice={notice} />
      {before && (
        <button type="button" class="quiet-button" onClick={() => desk.undo()}>
          Undo<span class="unseen">: {last}</span>
          {notice === '' && (
            <span class="undone" aria-hidden="true">
              {last}
            </span>
          )}
        </button>
      )}
    </div>
  );
}

/** Letters that stand in one line beside the way back. */
const ONE_LINE = 34;

/** What was said last: a line, opened where there is more of it. */
function Echo({ notice }: { notice: string }) {
  const [opened, setOpened] = useState('');
  const isFolded = notice.length > ONE_LINE;
  const isOpen = opened === notice;
  return (
    <div role="status" class="said">
      {isFolded ? (
        <button
          type="button"
          class="echo"
          aria-expanded={isOpen}
          onClick={() => setOpened(isOpen ? '' : notice)}
        >
          <span class={isOpen ? '' : 'one-line'}>{notice}</span>
        </button>
      ) : (
        notice
      )}
    </div>
  );
}

/**
 * What the reader has ticked. A tick holds in one state of the supply only: what was done with
 * it off says nothing once something was found with it on, nor the other way.
 * @param now the state in which the last thing was entered.
 * @param entered changes with everything entered.
 */
function useTicks(
  now: Supply,
  entered: string,
): [ReadonlySet<string>, (step: SafetyStep, done: boolean) => void] {
  const [kept, setKept] = useState({ entered, supply: now, keys: new Set<string>() });
  const holds =
    kept.entered === entered || kept.supply === now
      ? kept
      : { entered, supply: now, keys: new Set<string>() };
  const onTick = ({ key, supply }: SafetyStep, done: boolean) => {
    // Whoever ticks a step for another state is about to bring that about.
    const keys = new Set(supply === holds.supply ? holds.keys : []);
    if (done) keys.add(key);
    else keys.delete(key);
    setKept({ entered, supply, keys });
  };
  useEffect(() => {
    if (kept.entered !== entered) setKept({ ...holds, entered });
  }, [entered]);
  return [holds.keys, onTick];
}
