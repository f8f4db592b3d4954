import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { HISTORIES, HISTORY_WORDS, type History } from '../../diagnosis/index.ts';
import type { Told } from '../job.ts';
import { type Choices, type ComplaintChoice, type SystemChoice, toldOf } from './choices.ts';
import { ChooseSystem } from './choose-system.tsx';
import { Caution, href } from './parts.tsx';
import type { Route } from './route.ts';
import { useTopOf } from './use-top.ts';

/** What a job begins with. */
export interface Begun extends Told {
  readonly complaint: ComplaintChoice | null;
  readonly history: History;
  /** null where it is not known yet. */
  readonly system: SystemChoice | null;
  /** Of an arrangement composed from parts; null of an entry, or while it is not known. */
  readonly specification: string | null;
}

interface Props {
  readonly choices: Choices;
  /** What the reader comes with: a complaint, a system, what is seen there already. */
  readonly route: Pick<
    Route,
    'system' | 'complaint' | 'specification' | 'seen' | 'history' | 'foreign'
  >;
  readonly onBegin: (begun: Begun) => void;
}

/** A job begins with what is wrong; then since when; then which system it is. */
export function Begin({ choices, route, onBegin }: Props) {
  const named = (id: string | null) => choices.complaints.find((one) => one.id === id) ?? null;
  const system = choices.systems.find(({ id }) => id === route.system) ?? null;
  const { specification } = route;
  // What is seen already says what is wrong: it is not asked again.
  const [complaint, setComplaint] = useState<ComplaintChoice | null | undefined>(
    named(route.complaint) ?? (route.seen.length > 0 ? null : undefined),
  );
  // Asked where the reader comes from: it stands here to be seen and changed, and is not asked again.
  const [history, setHistory] = useState<History | null>(route.history);
  const isSubject = system !== null || specification !== null;
  const stage =
    complaint === undefined
      ? 'complaint'
      : history === null
        ? 'history'
        : isSubject
          ? 'ready'
          : 'system';
  useTopOf(stage);
  const begin = (picked: SystemChoice | null, since: History) => {
    // What is seen in one system says nothing of another.
    const brought = picked?.id === route.system ? route.seen : [];
    const told = toldOf(complaint ?? null, picked?.id ?? '');
    onBegin({
      complaint: complaint ?? null,
      history: since,
      system: picked,
      ...told,
      ...(brought.length > 0 && { seen: brought }),
      specification,
    });
  };
  if (complaint === undefined)
    return (
      <>
        <h1>What is wrong?</h1>
        {system && <p class="lede">{system.title}</p>}
        {specification !== null && <FromParts />}
        <Said route={route} system={system} />
        <Complaints
          complaints={
            system
              ? choices.complaints.filter(({ seen }) => seen.has(system.id))
              : choices.complaints
          }
          onPick={setComplaint}
        />
      </>
    );
  const head = (
    <>
      <h1>{complaint ? complaint.words : 'New job'}</h1>
      {system && <p class="lede">{system.title}</p>}
      {specification !== null && <FromParts />}
      <Said route={route} system={system} />
    </>
  );
  if (history === null)
    return (
      <>
        {head}
        <First complaint={complaint} />
        <fieldset class="asked-one">
          <legend>Ask: how long has it been so?</legend>
          <div class="answer-keys">
            {HISTORIES.map((one) => (
              <button
                key={one}
                type="button"
                class="answer-key"
                onClick={() => {
                  if (isSubject) begin(system, one);
                  else setHistory(one);
                }}
              >
                <b>{HISTORY_WORDS[one]}</b>
              </button>
            ))}
          </div>
        </fieldset>
        <Another onBack={() => setComplaint(undefined)}>Another complaint</Another>
      </>
    );
  const since = (
    <p class="since-line">
      <b>{HISTORY_WORDS[history]}.</b>{' '}
      <button type="button" class="quiet-button" onClick={() => setHistory(null)}>
        Otherwise
      </button>
    </p>
  );
  if (isSubject)
    return (
      <>
        {head}
        {since}
        <First complaint={complaint} />
        <button type="button" class="main-act" onClick={() => begin(system, history)}>
          Begin
        </button>
        <Another onBack={() => setComplaint(undefined)}>Another complaint</Another>
      </>
    );
  return (
    <>
      {head}
      {since}
      <ChooseSystem
        choices={choices}
        complaint={complaint}
        onPick={(picked) => begin(picked, history)}
      />
      <button type="button" class="plain" onClick={() => begin(null, history)}>
        I do not know this system yet
      </button>
    </>
  );
}

/** What a visit to an arrangement from parts is begun on; what is proven of it, its pages say. */
const FromParts = () => (
  <p class="lede">
    The arrangement composed from parts. No person has reviewed it: check it against what is in
    front of you.
  </p>
);

const Another = ({ onBack, children }: { onBack: () => void; children: ComponentChildren }) => (
  <p>
    <button type="button" class="quiet-button" onClick={onBack}>
      {children}
    </button>
  </p>
);

/** The commonest complaints, then all, then a way on without one. */
function Complaints({
  complaints,
  onPick,
}: {
  readonly complaints: readonly ComplaintChoice[];
  readonly onPick: (complaint: ComplaintChoice | null) => void;
}) {
  const common = complaints.filter((one) => one.common);
  const rest = complaints.filter((one) => !one.common);
  const groups = [...Map.groupBy(rest, ({ group }) => group)];
  const key = (one: ComplaintChoice) => (
    <button key={one.id} type="button" class="answer-key" onClick={() => onPick(one)}>
      <b>{one.words}</b>
    </button>
  );
  return (
    <>
      <div class="answer-keys">{common.map(key)}</div>
      {groups.length > 0 && (
        <details class="fold" open={common.length === 0}>
          <summary>
            <b>Something else</b> <span class="quiet">{rest.length} more</span>
          </summary>
          {groups.map(([group, own]) => (
            <section key={group} aria-label={group}>
              <h3>{group}</h3>
              <div class="answer-keys">{own.map(key)}</div>
            </section>
          ))}
        </details>
      )}
      <button type="button" class="plain" onClick={() => onPick(null)}>
        None of these: begin by looking
      </button>
    </>
  );
}

/** What to look at first, covers on, while one asks. */
export const First = ({ complaint }: { complaint: ComplaintChoice | null }) => (
  <>
    {complaint && complaint.first !== '' && (
      <section class="look-first" aria-label="Look first">
        <h2>Look first</h2>
        <p>{complaint.first}</p>
      </section>
    )}
    <Caution>
      Gas smell, water in the electrics, scorching: stop there.{' '}
      <a href={href('/procedures/safe-isolation/')}>Isolate, lock off</a>, open as if live, prove
      dead; then touch.
    </Caution>
  </>
);

/** What the address brought, and what of it cannot be used. */
const Said = ({
  route: { system, seen, foreign },
  system: known,
}: {
  readonly route: Props['route'];
  readonly system: SystemChoice | null;
}) => (
  <>
    {system !== null && !known && (
      <p class="said">The system in the address is not in this reference: pick one.</p>
    )}
    {known && seen.length > 0 && (
      <p>
        It begins with what the symptom shows, as the customer says it. Look yourself, under Seen:
        what you find stands in its place.
      </p>
    )}
    {foreign.map((text) => (
      <p key={text} class="said">
        Left out of the address: “{text}”. What is seen is written as E1.burner@heating:yes, no or
        on-and-off.
      </p>
    ))}
  </>
);
