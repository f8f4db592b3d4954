import type { ComponentChildren } from 'preact';
import { NEUTRAL_TO_EARTH_LIMIT } from '../../published/index.ts';
import type { Desk } from '../desk.ts';
import { type DeskState, dueKey } from '../desk-state.ts';
import { draftFor } from '../draft.ts';
import type { Asked } from '../findings.ts';
import type { Entry, Job } from '../job.ts';
import {
  type DueOf,
  isProved,
  type ProvingLook,
  type ProvingMode,
  type Purpose,
  provingCount,
  provingModes,
  provingReadings,
  setAsDue,
  supplyReadings,
  turnAstray,
} from '../proving.ts';
import type { Sheet } from '../sheet.ts';
import { answerText, modeTitle, outcomeText, pairText, standText, subjectText } from '../words.ts';
import { DueMark } from './answer-mark.tsx';
import { Caution } from './parts.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
}

/** What a sound system answers to a reading, as far as the engine has said it. */
export const duesOf = ({ dues, shown, job }: DeskState): DueOf =>
  Object.assign((asked: Asked) => dues.get(dueKey(asked))?.answer, {
    shownIn: shown && shown.said === job?.repairs.at(-1)?.text ? shown.modes : [],
  });

const PURPOSE_WORDS: Readonly<Record<Exclude<Purpose, 'rest'>, string>> = {
  repair: 'This proves the repair',
  safety: 'Safety devices',
};

/** What must now be seen, mode by mode; and the readings to take again. */
export function Proving(props: Props) {
  const { job, sheet, state } = props;
  const modes = provingModes(sheet, job, duesOf(state));
  const { astray } = provingCount(modes);
  const of = (purpose: Purpose) => modes.filter((one) => one.purpose === purpose);
  const rest = of('rest');
  const needed = of('repair');
  const done = needed.filter(isProved).length;
  return (
    <>
      <h3>Prove it</h3>
      <p role="status">
        {needed.length === 0 ? (
          'Nothing was entered astray before the repair: prove at least what the customer complained of.'
        ) : (
          <>
            <b>
              {done} of {needed.length}
            </b>{' '}
            {needed.length === 1 ? 'mode that proves' : 'modes that prove'} the repair.
          </>
        )}
        {astray > 0 && ` ${astray} not as it should be: look further under Next.`}
      </p>
      <Again {...props} />
      <Supply {...props} />
      {(['repair', 'safety'] as const).map(
        (purpose) =>
          of(purpose).length > 0 && (
            <section key={purpose} class="proving-group" aria-label={PURPOSE_WORDS[purpose]}>
              <h4>{PURPOSE_WORDS[purpose]}</h4>
              {of(purpose).map((one) => (
                <Mode key={one.mode.id} {...props} one={one} />
              ))}
            </section>
          ),
      )}
      {rest.length > 0 && (
        <details class="mend proving-rest">
          <summary>The rest, if there is time</summary>
          {rest.map((one) => (
            <Mode key={one.mode.id} {...props} one={one} />
          ))}
        </details>
      )}
    </>
  );
}

/** One mode: how it is brought about, one tap for all of it, and what is not so. */
function Mode({ desk, sheet, one }: Props & { one: ProvingMode }) {
  const { mode, looks } = one;
  const left = looks.filter(({ found }) => found === null).length;
  const astray = looks.filter(({ found, due }) => found !== null && found !== due).length;
  const cares = looks.filter(({ outcome }) => outcome.care !== '');
  const said = astray > 0 ? `${astray} not so` : left === 0 ? 'proved' : '';
  return (
    <details class="mode-block" name="proving-mode">
      <summary>
        <b>{mode.title}</b>
        <span class="quiet">{said || (left < looks.length ? `${left} left` : '')}</span>
      </summary>
      {mode.safety.map((device) => (
        <p key={device}>
          <b>{device}.</b>
        </p>
      ))}
      {mode.bring !== '' && (
        <p class="bring">
          <b>Bring it about:</b> {mode.bring}
        </p>
      )}
      {cares.map(({ outcome }) => (
        <Caution key={outcome.id}>{outcome.care}</Caution>
      ))}
      <p class="quiet">What should be seen. Tap what is not so.</p>
      {looks.map((look) => (
        <Look key={look.outcome.id} {...{ desk, sheet, one, look }} />
      ))}
      <button
        type="button"
        class="firm all-right"
        disabled={left === 0}
        onClick={() => desk.act((now) => setAsDue(now, one))}
      >
        {astray > 0 ? 'All the rest as it should be' : 'All as it should be'}
      </button>
    </details>
  );
}

interface LookProps extends Pick<Props, 'desk' | 'sheet'> {
  readonly one: ProvingMode;
  readonly look: ProvingLook;
}

function Look({ desk, sheet, one, look: { outcome, due, found } }: LookProps) {
  const astray = found !== null && found !== due;
  const state = found === null ? '' : astray ? 'not so' : 'seen so';
  return (
    <button
      type="button"
      class={`proof${astray ? ' astray' : ''}`}
      aria-pressed={astray}
      onClick={() => desk.act((now) => turnAstray(now, one, outcome.id))}
    >
      <span>
        {outcomeText(sheet, outcome.id, astray ? found : due)}{' '}
        <small class="point">{outcome.item}</small>
      </span>
      <span class="quiet">{state}</span>
    </button>
  );
}

/** Readings taken before the repair, with what they must read now. */
const Again = (props: Props) => (
  <Readings
    {...props}
    title="Readings, taken again"
    take="Take it again"
    rows={provingReadings(props.job).map(({ before: { observation }, asked, after }) => ({
      subject: subjectText(props.sheet, observation),
      stand: standText(props.sheet, observation),
      was: answerText(props.sheet, observation),
      asked,
      after,
    }))}
  />
);

/** The boiler's supply, read last. */
const Supply = (props: Props) => (
  <Readings
    {...props}
    title="Supply and polarity, read last"
    take="Read it"
    rows={supplyReadings(props.sheet, props.job).map(({ asked, after }) => ({
      subject: pairText(asked.from, asked.to),
      stand: modeTitle(props.sheet, asked.mode),
      was: null,
      asked,
      after,
    }))}
  >
    <Caution>
      Live tests, with the boiler firing: prove the tester before and after. Neutral to earth{' '}
      {NEUTRAL_TO_EARTH_LIMIT.volts} V or less, or what the boiler’s instructions give; more is one
      for an electrician.
    </Caution>
  </Readings>
);

interface ReadingsProps extends Props {
  readonly title: string;
  /** What the key says before it was read. */
  readonly take: string;
  readonly rows: readonly {
    readonly subject: string;
    readonly stand: string;
    /** What was read before the repair; null where nothing was. */
    readonly was: string | null;
    readonly asked: Asked;
    readonly after: Entry | undefined;
  }[];
  readonly children?: ComponentChildren;
}

/** Readings to be taken, each with what it must be and what it is since the repair. */
function Readings({ desk, state, job, sheet, title, take, rows, children }: ReadingsProps) {
  if (rows.length === 0) return null;
  const taken = rows.filter(({ after }) => after).length;
  return (
    <details class="mode-block" name="proving-mode" open={taken > 0 && taken < rows.length}>
      <summary>
        <b>{title}</b>
        <span class="quiet">
          {taken} of {rows.length}
        </span>
      </summary>
      {children}
      <ul class="again-list">
        {rows.map(({ subject, stand, was, asked, after }) => {
          const due = state.dues.get(dueKey(asked));
          return (
            <li key={dueKey(asked)}>
              <p>
                <b class="point">{subject}</b> <span class="quiet">{stand}</span>
              </p>
              <p>
                {was !== null && `Was ${was}`}
                {due && (
                  <>
                    {was === null ? 'Must be ' : '; must be '}
                    <DueMark sheet={sheet} asked={asked} due={due} />
                  </>
                )}
                {after && <>; now {answerText(sheet, after.observation)}</>}
              </p>
              {asked.kind !== 'look' && (
                <button
                  type="button"
                  class="plain"
                  onClick={() => desk.turn({ draft: draftFor(job, asked) })}
                >
                  {after ? 'Once more' : take}
                </button>
              )}
            </li>
          );
        })}
      </ul>
    </details>
  );
}
