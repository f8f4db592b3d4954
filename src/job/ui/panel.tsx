import type { ComponentChildren, RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Observation } from '../../diagnosis/inference/index.ts';
import { ANSWER_WORDS } from '../../diagnosis/tests/index.ts';
import { capital } from '../../words/index.ts';
import { canSpeak, onVoices, readAloud } from '../aloud.ts';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import { type Draft, draftFor, observationWith } from '../draft.ts';
import type { Asked, NextTest } from '../findings.ts';
import {
  ALL_DEAD,
  ALL_INSULATION,
  ALL_LIVE,
  bringBack,
  enterFound,
  type Job,
  leaveOut,
  METERED_ACTS,
} from '../job.ts';
import { type LeftWords, leftWords } from '../left-words.ts';
import { NEXT_TITLES, nextSaid, whyText } from '../next-words.ts';
import { enterOneOf } from '../one-look.ts';
import { actIn, modeIn, outcomeIn, type Sheet } from '../sheet.ts';
import { subjectOf, subjectPath } from '../subject.ts';
import { enteredText, partVoltsWhy } from '../words.ts';
import { AnswerKeys, Keys } from './answer-keys.tsx';
import { DueLine } from './answer-mark.tsx';
import { Figure } from './figure.tsx';
import { Instructions } from './instructions.tsx';
import { Caution, href } from './parts.tsx';
import { type SafetyStep, safetyOf } from './safety.tsx';
import { useLong, Working } from './working.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
  readonly ticks: ReadonlySet<string>;
  readonly onTick: (step: SafetyStep, done: boolean) => void;
  /** What is left, where no test tells more. */
  readonly children?: ComponentChildren;
}

/** The one act of now, under the thumb: what, where, in which mode, its caution, its answers. */
export function Panel(props: Props) {
  const { desk, state, job, sheet } = props;
  const { next, choosing } = state;
  const isLong = useLong(choosing);
  if (next === undefined || isLong || (next === null && choosing))
    return <Working desk={desk} state={state} job={job} sheet={sheet} />;
  if (next === null)
    return (
      <section class="panel" aria-labelledby="next-title">
        <h2 id="next-title">No further test helps</h2>
        <Tell job={job} words={leftWords(job, state.findings!)}>
          {props.children}
        </Tell>
        <LeftOut desk={desk} job={job} />
      </section>
    );
  return <Act key={next.id} {...props} next={next} />;
}

interface TellProps {
  readonly job: Job;
  readonly words: LeftWords;
  readonly children: ComponentChildren;
}

/** What is left, and what would tell it though no listed test does. */
const Tell = ({ job, words: { left, isFuse }, children }: TellProps) => {
  const wiring = <a href={href(subjectPath(subjectOf(job)!, 'wiring'))}>wiring table</a>;
  return (
    <>
      <p>{left}</p>
      {children}
      {isFuse ? (
        <p>
          Isolated and proved dead, boards disconnected: take off what the fuse feeds one thing at a
          time, by the {wiring}, and test line to neutral and to earth again after each. When the
          short goes, the last one taken off has it.{' '}
          <a href={href('/procedures/dead-tests/')}>Dead tests</a>
        </p>
      ) : (
        <p>
          Isolated and proved dead: compare cores with the {wiring}, test parts on their own, or try
          a known good one; never a safety device, nor a part of an unvented cylinder.
        </p>
      )}
    </>
  );
};

function Act({
  desk,
  state,
  job,
  sheet,
  next,
  ticks,
  onTick,
}: Omit<Props, 'children'> & { next: NextTest }) {
  const { asked, again } = next;
  const { choosing } = state;
  const [asking, setAsking] = useState<'answer' | 'cannot' | 'figure'>('answer');
  const [shown, setShown] = useState(false);
  const panel = useRef<HTMLElement>(null);
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    scrollTo({ top: 0 });
    // What was tapped is gone: the act that came in its place is read out, and keys go on there.
    if (document.activeElement === document.body) title.current?.focus({ preventScroll: true });
  }, []);
  const [draft, setDraft] = useState(() => (asked.kind === 'look' ? null : draftFor(job, asked)));
  const safety = draft ? safetyOf(sheet, draft) : [];
  const step = safety.find(({ key }) => !ticks.has(key));
  const held = safety.map((one) => one.held).join(' ');
  const mode = modeIn(sheet, asked.mode);
  const enter = (observation: Observation | null) => {
    // A second tap before the next act is there is no second answer.
    if (!observation || desk.state.choosing) return;
    desk.act((now) => enterFound(now, observation));
    desk.say(enteredText(sheet, observation, next.due) + partVoltsWhy(job, observation));
  };
  const enterAt = (outcome: string, oneOf: readonly string[]) => {
    if (desk.state.choosing) return;
    desk.act((now) => enterOneOf(now, asked.mode, outcome, oneOf));
    const due = { answer: mode?.due[outcome] ?? next.due.answer, figure: '' };
    desk.say(enteredText(sheet, { kind: 'look', mode: asked.mode, outcome, answer: 'seen' }, due));
  };
  const words = nextSaid(sheet, next, step !== undefined);
  const heading = again ? 'Once more' : NEXT_TITLES[asked.kind];
  // Whoever has ticked that it is isolated has brought that about.
  const isThere = job.mode === asked.mode || (mode?.isolated === true && !step);
  const bring = isThere ? '' : (mode?.bring ?? '');
  return (
    <section
      class="panel"
      aria-labelledby="next-title"
      aria-busy={choosing}
      data-test={next.id}
      ref={panel}
    >
      <div class="panel-head">
        <h2 id="next-title" tabIndex={-1} ref={title}>
          {heading}
        </h2>
        {asking !== 'figure' && words.place !== '' && <p class="next-place">{words.place}</p>}
        <Aloud of={panel} />
      </div>
      <p class="next-what">
        {words.what} {words.code !== '' && <span class="code">{words.code}</span>}
      </p>
      {asking !== 'figure' && (
        <Instructions key={step?.key ?? 'answers'} of={panel}>
          {words.where !== '' && <p class="next-where">{words.where}</p>}
          {!step && words.how !== '' && <p>{words.how}</p>}
          {(words.instrument !== '' || mode) && (
            <p class="bring">
              {words.instrument !== '' && (
                <>
                  <b>With</b> {words.instrument}.{' '}
                </>
              )}
              {mode && (
                <>
                  <b>{mode.title}.</b> {bring === '' ? 'As it is now.' : bring}
                </>
              )}
            </p>
          )}
        </Instructions>
      )}
      {!step && asking !== 'figure' && words.caution === '' && (
        <details class="why">
          <summary>
            <span class="one-line">{whyText(next)}</span>
          </summary>
        </details>
      )}
      {asking === 'cannot' ? (
        <Cannot desk={desk} sheet={sheet} next={next} onBack={() => setAsking('answer')} />
      ) : asking === 'figure' && draft && !step ? (
        <Figure sheet={sheet} draft={draft} onDraft={setDraft} onEnter={enter} />
      ) : step ? (
        <>
          <Caution>{step.caution}</Caution>
          <button type="button" class="main-act" onClick={() => onTick(step, true)}>
            {step.tick}
          </button>
        </>
      ) : (
        <>
          {words.caution !== '' ? (
            <Caution>
              {held} {words.caution}
            </Caution>
          ) : (
            held !== '' && <p class="care-line">{held}</p>
          )}
          {shown && <DueLine sheet={sheet} asked={asked} due={next.due} />}
          {draft ? (
            <AnswerKeys
              sheet={sheet}
              draft={draft}
              disabled={choosing}
              onAnswer={(answer) => enter(observationWith(draft, answer))}
            />
          ) : (
            asked.kind === 'look' && (
              <LookKeys
                sheet={sheet}
                asked={asked}
                disabled={choosing}
                onAnswer={enter}
                onPosition={enterAt}
              />
            )
          )}
        </>
      )}
      {asking === 'figure' && !step && (
        <button type="button" class="quiet-button" onClick={() => setAsking('answer')}>
          Back to the usual answers
        </button>
      )}
      {asking === 'answer' && (
        <div class="panel-more">
          <button type="button" class="quiet-button" onClick={() => setAsking('cannot')}>
            Can’t do this
          </button>
          {!step && !shown && (
            <button type="button" class="quiet-button" onClick={() => setShown(true)}>
              Normal here?
            </button>
          )}
          {!step && draft && hasFigure(draft) && (
            <button type="button" class="quiet-button" onClick={() => setAsking('figure')}>
              Figure
            </button>
          )}
        </div>
      )}
      <LeftOut desk={desk} job={job} />
    </section>
  );
}

const hasFigure = ({ kind }: Draft) => kind === 'live' || kind === 'dead';

const LOOK_ANSWERS = ['seen', 'not seen', 'comes and goes'] as const;
type LookAnswer = (typeof LOOK_ANSWERS)[number];

/** So, not so, or now and then. */
function LookKeys({
  sheet,
  asked,
  disabled,
  onAnswer,
  onPosition,
}: {
  readonly sheet: Sheet;
  readonly asked: Extract<Asked, { kind: 'look' }>;
  readonly disabled: boolean;
  readonly onAnswer: (observation: Observation) => void;
  readonly onPosition: (outcome: string, all: readonly string[]) => void;
}) {
  const outcome = outcomeIn(sheet, asked.outcome);
  const wanders = {
    answer: 'comes and goes',
    text: capital(ANSWER_WORDS['comes and goes']),
  } as const;
  if (outcome && outcome.oneOf.length > 0)
    return (
      <Keys
        kind="look"
        keys={[
          ...outcome.oneOf.map((id) => ({
            id,
            answer: 'seen' as const,
            text: outcomeIn(sheet, id)!.title,
          })),
          wanders,
        ]}
        disabled={disabled}
        onAnswer={(answer, id) =>
          id === undefined
            ? onAnswer({ ...asked, answer: answer as LookAnswer })
            : onPosition(id, outcome.oneOf)
        }
      />
    );
  const texts = {
    seen: outcome?.title ?? 'Yes',
    'not seen': outcome?.otherwise ?? 'No',
    'comes and goes': wanders.text,
  } as const;
  return (
    <Keys
      kind="look"
      keys={LOOK_ANSWERS.map((answer) => ({ answer, text: texts[answer] }))}
      disabled={disabled}
      onAnswer={(answer) => onAnswer({ ...asked, answer: answer as LookAnswer })}
    />
  );
}

/** Why it cannot be done here: the planner then goes round it. */
function Cannot({
  desk,
  sheet,
  next: { id, place, asked },
  onBack,
}: {
  readonly desk: Desk;
  readonly sheet: Sheet;
  readonly next: NextTest;
  readonly onBack: () => void;
}) {
  const out = (what: string) => desk.act((now) => leaveOut(now, what));
  const act = asked.kind === 'act' ? actIn(sheet, asked.id)?.act : undefined;
  const isMetered = asked.kind === 'dead' || METERED_ACTS.includes(act ?? '');
  const ways: readonly (readonly [text: string, what: string])[] = [
    ...(place === null ? [] : [['Can’t get at it', place] as const]),
    [place === null ? 'Can’t tell from here' : 'Not this test, others here', id],
    ...(asked.kind === 'live' ? [['No live readings here', ALL_LIVE] as const] : []),
    ...(isMetered ? [['No meter for dead tests', ALL_DEAD] as const] : []),
    ...(act === 'insulation' ? [['No insulation tester here', ALL_INSULATION] as const] : []),
  ];
  return (
    <div class="answer-keys">
      {ways.map(([text, what]) => (
        <button key={what} type="button" class="answer-key" onClick={() => out(what)}>
          <b>{text}</b>
        </button>
      ))}
      <button type="button" class="answer-key" onClick={onBack}>
        Back
      </button>
    </div>
  );
}

/** What the engineer said cannot be done, which may be brought back. */
const LeftOut = ({ desk, job: { cannot } }: Pick<Props, 'desk' | 'job'>) =>
  cannot.length > 0 && (
    <p class="quiet left-out">
      {cannot.length === 1 ? 'One thing' : `${cannot.length} things`} left out that cannot be done
      here.{' '}
      <button type="button" class="quiet-button" onClick={() => desk.act((now) => bringBack(now))}>
        Bring back
      </button>
    </p>
  );

/** Reads the act aloud, where the phone can with no signal: hands full, torch in the teeth. */
function Aloud({ of }: { of: RefObject<HTMLElement> }) {
  const [able, setAble] = useState(canSpeak);
  useEffect(() => onVoices(() => setAble(canSpeak())), []);
  if (!able) return null;
  const read = () => {
    const lines = of.current?.querySelectorAll('h2, p, .main-act') ?? [];
    readAloud([...lines].map(({ textContent }) => textContent).join('. '));
  };
  return (
    <button type="button" class="quiet-button" onClick={read}>
      Read aloud
    </button>
  );
}
