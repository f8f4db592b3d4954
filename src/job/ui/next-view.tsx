import { useState } from 'preact/hooks';
import { certaintyText, leadText } from '../../published/index.ts';
import { capital, lowerFirst } from '../../words/index.ts';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import type { FoundRepair } from '../findings.ts';
import { type Job, openEntries, roundOf } from '../job.ts';
import { isSaidByAnother } from '../one-look.ts';
import { actIn, type Sheet } from '../sheet.ts';
import { standingOf } from '../standing.ts';
import { subjectOf, subjectPath } from '../subject.ts';
import { clauseText, onWhoseWord } from '../words.ts';
import { Found, RepairAct } from './found.tsx';
import { Panel } from './panel.tsx';
import { Bar, Caution, href } from './parts.tsx';
import type { SafetyStep } from './safety.tsx';
import { WhatFound } from './what-found.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
  readonly ticks: ReadonlySet<string>;
  readonly onTick: (step: SafetyStep, done: boolean) => void;
}

/** Share of `not as shown` below which it is not worth a line. */
const LEAST_SHARE = 0.01;

/** Repairs that are offered where no test tells more. */
const MOST_LEFT = 3;

/** What is known and what it can be, folded; under them the one act of now. */
export function NextView(props: Props) {
  const { state } = props;
  const { findings } = state;
  /** Things entered when the reader chose to test on although it was found. */
  const [testsOn, setTestsOn] = useState<number | null>(null);
  /** The repair that the reader chose to see although it is not found. */
  const [taken, setTaken] = useState<string | null>(null);
  if (!findings) return <p role="status">Working out what can be wrong.</p>;
  const { repairs, found, foundThere, count } = findings;
  const likely = repairs.filter(({ sound }) => !sound);
  const there = testsOn === count ? [] : foundThere;
  const seen = there.find(({ repair }) => repair.key === taken)?.repair;
  const wanted = seen ?? likely.find(({ key }) => key === taken);
  const shown = wanted ?? (found && testsOn !== count ? likely[0] : undefined);
  const testOn = () => {
    setTaken(null);
    setTestsOn(count);
  };
  return (
    <section class="next-view" aria-label="Next">
      <div class="next-above">{!shown && <SoFar {...props} />}</div>
      {shown ? (
        <>
          <Found
            {...props}
            repair={shown}
            found={shown === seen || (found && shown === likely[0])}
            seen={shown === seen}
            onTestOn={testOn}
          />
          <SoFar {...props} isFound />
        </>
      ) : there.length > 0 ? (
        <WhatFound
          act={lastActText(props)}
          found={there}
          onTake={({ key }) => setTaken(key)}
          onNone={testOn}
        />
      ) : (
        <Panel {...props}>
          {state.next === null && <Left repairs={likely.slice(0, MOST_LEFT)} onTake={setTaken} />}
        </Panel>
      )}
    </section>
  );
}

/** The act that came last, in words. */
function lastActText({ job, sheet }: Props): string {
  const last = openEntries(job).at(-1)?.observation;
  return last?.kind === 'act' ? (actIn(sheet, last.id)?.title ?? '') : '';
}

/** What is left, where no test tells more: the way to each. */
const Left = ({
  repairs,
  onTake,
}: {
  readonly repairs: readonly FoundRepair[];
  readonly onTake: (key: string) => void;
}) => (
  <ul class="left-list">
    {repairs.map(({ key, causes, share }) => (
      <li key={key}>
        <button type="button" class="quiet-button" onClick={() => onTake(key)}>
          {causes[0]?.title}
        </button>{' '}
        <span class="quiet">{certaintyText(share)}</span>
      </li>
    ))}
  </ul>
);

/** What was entered since the last repair, newest first. */
function Known({ desk, job, sheet }: Props) {
  const all = openEntries(job);
  const entries = all.filter((entry) => !isSaidByAnother(sheet, all, entry)).toReversed();
  if (entries.length === 0) return null;
  return (
    <section class="known" aria-labelledby="known-title">
      <h2 id="known-title">Known</h2>
      <ul class="plain-list">
        {entries.map(({ id, observation, told }) => (
          <li key={id}>
            {capital(clauseText(sheet, observation))}
            {told && <span class="quiet">, {onWhoseWord(job)}</span>}
          </li>
        ))}
      </ul>
      <button type="button" class="quiet-button" onClick={() => desk.turn({ view: 'readings' })}>
        Put one right
      </button>
    </section>
  );
}

/** What is left where nothing on the drawing accounts for it: to look what is wired otherwise. */
const NotAsDrawn = ({ job }: Pick<Props, 'job'>) => (
  <Caution>
    Not as drawn. Something that is not on the drawing accounts best for what was entered: wired
    otherwise, a part of another kind, or several faults at once. Isolated and proved dead, compare
    the cores in the terminals with the{' '}
    <a href={href(subjectPath(subjectOf(job)!, 'wiring'))}>wiring table</a>, and{' '}
    <a href={href(subjectPath(subjectOf(job)!, 'as-found', `job=${job.id}`))}>
      mark what is otherwise
    </a>
    : these readings are held against it.
  </Caution>
);

/** How the likeliest stands before the others: first of many is not likely yet. */
const leadWord = (top: FoundRepair | undefined) =>
  top && top.share > LIKELY ? 'Most likely' : 'Likeliest so far';

/** Above this share of all it is more likely than not. */
const LIKELY = 0.5;

/** What it has come to, in a line; opened, what it can be, likeliest first, and what is known. */
function SoFar({ isFound = false, ...props }: Props & { readonly isFound?: boolean }) {
  const { state, job, sheet } = props;
  const findings = state.findings!;
  const { repairs, more, notAsShown, contradicted, count } = findings;
  const seeking = findings.wantsPairs && !findings.withPairs;
  const standing = standingOf(sheet, findings, state.choosing ? undefined : state.next);
  const top = repairs[0]?.causes[0];
  return (
    <details class="fold so-far" open={contradicted && state.next === null}>
      <summary>
        <span class="one-line">
          {isFound ? (
            <b>Known, and what else it could be</b>
          ) : (
            <>
              <b>
                {contradicted ? 'Not as drawn' : count === 0 ? 'Most often' : leadWord(repairs[0])}
              </b>{' '}
              {top && !contradicted ? lowerFirst(top.title) : 'compare with the wiring table'}
            </>
          )}
        </span>
      </summary>
      {contradicted && <NotAsDrawn job={job} />}
      {standing && standing.title !== 'Found' && (
        <div class="standing">
          <h2>{standing.title}</h2>
          {standing.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
      )}
      <p role="status" class="quiet">
        {count === 0
          ? roundOf(job) > 0
            ? 'Nothing entered since the repair: this is how often each is met.'
            : 'Nothing entered yet: this is how often each is met.'
          : `From ${count === 1 ? 'one thing' : `${count} things`} entered${roundOf(job) > 0 ? ' since the repair' : ''}.`}
        {seeking && ' No single fault explains them: looking at two at once.'}
        {findings.withPairs &&
          repairs[0]?.two &&
          ' No single fault explains them: these are two at once.'}
      </p>
      <ol class="cause-list">
        {repairs.map((repair, i) => (
          <Cause
            key={repair.key}
            {...props}
            repair={repair}
            first={i === 0}
            count={count}
            found={i === 0 && findings.found}
          />
        ))}
      </ol>
      {repairs.length === 0 && !seeking && <p>Nothing on the drawing accounts for it.</p>}
      {repairs.length > 0 && more > 0 && (
        <p class="quiet">{more} more, each less likely than these.</p>
      )}
      {notAsShown >= LEAST_SHARE && !contradicted && (
        <p class="quiet">
          Something that is not on the drawing: {certaintyText(notAsShown)}.{' '}
          <a href={href(subjectPath(subjectOf(job)!, 'as-found', `job=${job.id}`))}>
            Mark it as found
          </a>
        </p>
      )}
      <Known {...props} />
    </details>
  );
}

type CauseProps = Props & {
  readonly repair: FoundRepair;
  readonly first: boolean;
  /** Whether it is found, not only the likeliest. */
  readonly found: boolean;
  readonly count: number;
};

function Cause({ desk, repair, first, found, count }: CauseProps) {
  const [top, ...others] = repair.causes;
  if (!top) return null;
  return (
    <li>
      <details class="cause" open={first}>
        <summary>
          <span class="cause-head">
            <b>{top.title}</b>
          </span>
          <span class="certainty">
            {first ? leadText(repair.share) : certaintyText(repair.share)}
          </span>
          <Bar share={repair.share} />
        </summary>
        {count > 0 && <p>{repair.because}</p>}
        {repair.against !== '' && <p class="against-it">{repair.against}</p>}
        {others.length > 0 && (
          <div class="because">
            <b>The same repair covers</b>
            <ul>
              {others.map(({ title, says }) => (
                <li key={title}>
                  {title}
                  {says && `. If it is this: ${says}`}
                </li>
              ))}
              {repair.more > 0 && <li>{repair.more} more</li>}
            </ul>
          </div>
        )}
        {top.hazard && <Caution>{top.hazard}</Caution>}
        {repair.safeguard ? (
          <Caution>{repair.repair}</Caution>
        ) : (
          <p class="repair">
            <b>{repair.asItIs || repair.sound ? 'What to do' : 'Repair'}</b> {repair.repair}{' '}
            {!repair.sound && !repair.asItIs && !repair.setByHand && (
              <a href={href('/procedures/safe-isolation/')}>Isolated and proved dead first</a>
            )}
          </p>
        )}
        {!repair.sound && <RepairAct desk={desk} repair={repair} found={found} look="plain" />}
      </details>
    </li>
  );
}
