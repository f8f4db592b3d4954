import { useState } from 'preact/hooks';
import { HISTORIES, HISTORY_WORDS, type History } from '../../diagnosis/index.ts';
import type { Beginning } from '../job.ts';
import { MOST_LINE } from '../limits.ts';
import { href, OneOf, Words } from './parts.tsx';
import type { Route } from './route.ts';
import { type SystemChoice, systemsFor } from './systems.ts';

interface Props {
  readonly systems: readonly SystemChoice[];
  /** The system the reader comes from, with what is seen there already. */
  readonly route: Pick<Route, 'system' | 'seen' | 'history' | 'foreign'>;
  readonly onBegin: (system: SystemChoice, words: BeginningWords) => void;
}

/** What is asked before a job begins. */
export type BeginningWords = Required<Pick<Beginning, 'name' | 'place' | 'history'>>;

/** Which system, and what the job is called. */
export function NewJob({ systems, route, onBegin }: Props) {
  const { system } = route;
  const [picked, setPicked] = useState<string | null>(system);
  const [query, setQuery] = useState('');
  const [name, setName] = useState('');
  const [place, setPlace] = useState('');
  const [history, setHistory] = useState<History>(route.history);
  const chosen = systems.find(({ id }) => id === picked);
  if (!chosen) {
    const found = systemsFor(systems, query);
    return (
      <>
        <h1>Which system is it?</h1>
        {system !== null && picked === system && (
          <p class="said">The system in the address is not in this reference: pick one.</p>
        )}
        <Words
          id="system-query"
          label="Words of its name or parts"
          value={query}
          onText={setQuery}
          most={80}
        />
        <p role="status" class="quiet">
          {found.length === systems.length
            ? `All ${systems.length} systems`
            : `${found.length} of ${systems.length} systems`}
        </p>
        <ul class="pick-list">
          {found.map(({ id, title, summary }) => (
            <li key={id}>
              <button type="button" onClick={() => setPicked(id)}>
                <strong>{title}</strong>
                <span class="quiet">{summary}</span>
              </button>
            </li>
          ))}
        </ul>
        <p>
          Not sure which? <a href={href('/systems/')}>Recognise it by what is in front of you</a>.
        </p>
      </>
    );
  }
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        onBegin(chosen, { name, place, history });
      }}
    >
      <h1>New job</h1>
      <p class="lede">{chosen.title}</p>
      <p>
        <button type="button" class="quiet-button" onClick={() => setPicked(null)}>
          Another system
        </button>
      </p>
      {chosen.id === system && <Seen {...route} />}
      <p class="ask">Ask first: did it work until now? Who worked on it, and when?</p>
      <OneOf
        label="What the customer says"
        value={history}
        choices={HISTORIES.map((one) => [one, HISTORY_WORDS[one]] as const)}
        onPick={setHistory}
      />
      <Words
        id="job-name"
        label="Name of the job (may stay empty)"
        value={name}
        onText={setName}
        most={MOST_LINE}
      />
      <Words
        id="job-place"
        label="Place (may stay empty)"
        value={place}
        onText={setPlace}
        most={MOST_LINE}
      />
      <nav class="job-bar" aria-label="Begin">
        <button type="submit" class="main-act">
          Begin
        </button>
      </nav>
    </form>
  );
}

/** What a job begins with where a symptom leads to it. */
const Seen = ({ seen, foreign }: Pick<Route, 'seen' | 'foreign'>) => (
  <>
    {seen.length > 0 && (
      <p>
        It begins with what the symptom shows, entered as seen. Check that first, under Seen: take
        back what you have not seen yourself.
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
