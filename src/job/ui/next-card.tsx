import { ANSWER_WORDS } from '../../diagnosis/tests/index.ts';
import { percentText } from '../../published/index.ts';
import type { Desk, DeskState } from '../desk.ts';
import { draftFor } from '../draft.ts';
import type { Asked, NextTest } from '../findings.ts';
import { addEntry, bringBack, type Job, leaveOut } from '../job.ts';
import { actIn, itemIn, modeIn, openingsFor, outcomeIn, refOf, type Sheet } from '../sheet.ts';
import { askedText, capital, LEAST_MINUTES, minutesText } from '../words.ts';
import { AnswerMark } from './answer-mark.tsx';
import { Caution, href } from './parts.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
}

const TITLES = {
  look: 'Look next',
  live: 'Read next',
  dead: 'Test dead next',
  fuse: 'Test the fuse next',
  act: 'Do next',
} as const;

/** The test that tells most now: where, how, what to expect, what each answer would mean. */
export function NextCard({ desk, state, job, sheet }: Props) {
  const { next, choosing } = state;
  if (next === undefined || (next === null && choosing))
    return (
      <p class="next-card" role="status">
        Choosing the next test.
      </p>
    );
  if (next === null)
    return (
      <section class="next-card" aria-label="Next test">
        <h2>No test tells more</h2>
        <p>
          What is left shows alike at every point a probe reaches. Isolated and proved dead: compare
          cores with the wiring table, test parts on their own, or put a sound one in place.
        </p>
        <LeftOut desk={desk} job={job} />
      </section>
    );
  const { asked, again } = next;
  const mode = modeIn(sheet, asked.mode);
  return (
    <section class="next-card" aria-labelledby="next-title" aria-busy={choosing}>
      <h2 id="next-title">
        {again ? 'Take it again' : TITLES[asked.kind]}
        {choosing && <span class="quiet"> – choosing anew</span>}
      </h2>
      <Where sheet={sheet} next={next} />
      {mode && (
        <p class="bring">
          <b>{mode.title}.</b> {job.mode === mode.id ? 'As it is now.' : mode.bring}
        </p>
      )}
      <p>
        <span class="quiet">{whyText(next)}</span>
      </p>
      <ActCaution sheet={sheet} next={next} />
      <Answers next={next} />
      {asked.kind === 'look' && (
        <button
          type="button"
          class="quiet-button"
          disabled={choosing}
          onClick={() => desk.act((now) => addEntry(now, { ...asked, answer: 'comes and goes' }))}
        >
          {capital(ANSWER_WORDS['comes and goes'])}
        </button>
      )}
      <button
        type="button"
        class="quiet-button"
        disabled={choosing}
        onClick={() =>
          desk.act((now) => leaveOut(now, next.opens && next.place ? next.place : next.id))
        }
      >
        {next.opens && next.place ? 'Can’t open this' : 'Can’t do this here'}
      </button>
      <LeftOut desk={desk} job={job} />
    </section>
  );
}

/** What the engineer said cannot be done, which may be brought back. */
const LeftOut = ({ desk, job: { cannot } }: Pick<Props, 'desk' | 'job'>) =>
  cannot.length > 0 && (
    <p class="quiet">
      {cannot.length === 1 ? 'One thing' : `${cannot.length} things`} left out that cannot be done
      here.{' '}
      <button type="button" class="quiet-button" onClick={() => desk.act((now) => bringBack(now))}>
        Bring back
      </button>
    </p>
  );

/** What it is for, and what it takes. */
const whyText = ({ why, minutes, asked }: NextTest): string =>
  // A look in another mode takes the minutes that bring the mode about.
  asked.kind === 'look' && minutes < LEAST_MINUTES
    ? why
    : `${why} It takes ${minutesText(minutes)}.`;

function Where({ sheet, next: { asked, opens } }: { sheet: Sheet; next: NextTest }) {
  const act = asked.kind === 'act' ? actIn(sheet, asked.id) : undefined;
  const ref = whereOf(sheet, asked);
  const item = itemIn(sheet, ref);
  const openings =
    asked.kind === 'look'
      ? []
      : openingsFor(sheet, asked.kind === 'act' ? { act: asked.id } : asked);
  return (
    <>
      <p class={asked.kind === 'look' || act ? 'next-what' : 'next-what point'}>
        {askedText(sheet, asked)}
      </p>
      {act && <p>{act.how}</p>}
      <p>
        <b class="point">{ref}</b> {item?.title}, {item?.place}
        {opens &&
          openings.length > 0 &&
          `. To open: ${openings.map(({ title }) => title).join(', ')}`}
      </p>
    </>
  );
}

/** The item that something asked is at. */
function whereOf(sheet: Sheet, asked: Asked): string {
  switch (asked.kind) {
    case 'look':
      return refOf(asked.outcome);
    case 'fuse':
      return refOf(asked.branch);
    case 'act':
      return actIn(sheet, asked.id)?.item ?? '';
    default:
      return refOf(asked.from);
  }
}

/** What the test's own act asks for, already where it is proposed. */
function ActCaution({ sheet, next: { asked, opens } }: { sheet: Sheet; next: NextTest }) {
  if (asked.kind === 'look') {
    const care = outcomeIn(sheet, asked.outcome)?.care;
    return care ? <Caution>{care}</Caution> : null;
  }
  return asked.kind === 'live' ? (
    <Caution>
      Live work, for those competent in it:{' '}
      {opens && (
        <>
          <a href={href('/procedures/safe-isolation/')}>isolate and prove dead</a> before it is
          opened;{' '}
        </>
      )}
      tester proved, probes as GS38 asks. <a href={href('/procedures/live-tests/')}>Live tests</a>
    </Caution>
  ) : (
    <Caution>
      Only isolated, locked off and proved dead.{' '}
      {asked.kind === 'act' && actIn(sheet, asked.id)?.caution}{' '}
      <a href={href('/procedures/safe-isolation/')}>Safe isolation</a>
    </Caution>
  );
}

/** What to expect of a sound system, and what each answer would leave. */
const Answers = ({ next: { asked, answers, due } }: { next: NextTest }) => (
  <dl class="next-answers">
    {answers.map(({ answer, text, share, due: isDue, leaves }) => (
      <div key={answer}>
        <dt>
          {asked.kind === 'live' ? (
            <AnswerMark answer={answer} text={text} />
          ) : (
            <b>{capital(text)}</b>
          )}
          <span class="share">{percentText(share)}</span>
        </dt>
        {isDue && (
          <dd class="quiet">
            As a sound system{due.figure !== '' && asked.kind !== 'look' && `: ${due.figure}`}.
          </dd>
        )}
        {leaves.length > 0 && <dd>Then likeliest: {leaves.join('; or ')}.</dd>}
      </div>
    ))}
  </dl>
);

/** The act that answers the next test, under the thumb. A look is answered where it is asked. */
export function NextAct({ desk, state, job, sheet }: Props) {
  const asked = state.next?.asked;
  if (!asked) return null;
  if (asked.kind !== 'look')
    return (
      <nav class="job-act" aria-label="Next act">
        <button
          type="button"
          class="main-act"
          disabled={state.choosing}
          onClick={() => desk.turn({ draft: draftFor(job, asked) })}
        >
          {asked.kind === 'live' ? 'Take this reading' : 'Make this test'}
        </button>
      </nav>
    );
  const outcome = outcomeIn(sheet, asked.outcome);
  if (!outcome) return null;
  const enter = (answer: 'seen' | 'not seen') =>
    desk.act((now) => addEntry(now, { ...asked, answer }));
  return (
    <nav class="job-act two-acts" aria-label="Next act">
      <button
        type="button"
        class="main-act"
        disabled={state.choosing}
        onClick={() => enter('seen')}
      >
        {outcome.title}
      </button>
      <button
        type="button"
        class="main-act"
        disabled={state.choosing}
        onClick={() => enter('not seen')}
      >
        {outcome.otherwise}
      </button>
    </nav>
  );
}
