import { useState } from 'preact/hooks';
import { FEW, nextQuestion } from '../../recognise/index.ts';
import { type Choices, type ComplaintChoice, type SystemChoice, systemsFor } from './choices.ts';
import { href, Words } from './parts.tsx';

interface Props {
  readonly choices: Choices;
  /** What the customer complains of: systems that can show it come first. */
  readonly complaint: ComplaintChoice | null;
  readonly onPick: (system: SystemChoice) => void;
}

/** One who cannot tell: it rules nothing out. */
const UNKNOWN = 'unknown';

/** Which system it is: by looking, one question at a time; or by its name. */
export function ChooseSystem({ choices, complaint, onPick }: Props) {
  /** Answers so far, with the place of their question. */
  const [answers, setAnswers] = useState<readonly (readonly [at: number, answer: string])[]>([]);
  const { systems, questions } = choices;
  const able = complaint ? systems.filter(({ id }) => complaint.seen.has(id)) : [];
  const from = able.length > 0 ? able : systems;
  const left = from.filter((system) =>
    answers.every(([, answer]) => answer === UNKNOWN || system.answers.includes(answer)),
  );
  const at =
    left.length > FEW
      ? nextQuestion(
          questions,
          (answers.at(-1)?.[0] ?? -1) + 1,
          left.map((system) => system.answers),
        )
      : -1;
  const question = questions[at];
  return (
    <section class="choose-system" aria-labelledby="which-system">
      <h2 id="which-system">Which system?</h2>
      <p role="status" class="quiet">
        {left.length === 1 ? '1 system' : `${left.length} systems`} left
        {able.length > 0 && able.length < systems.length && ' that can do this'}.{' '}
        {answers.length > 0 && (
          <button
            type="button"
            class="quiet-button"
            onClick={() => setAnswers(answers.slice(0, -1))}
          >
            Back a question
          </button>
        )}
      </p>
      {question ? (
        <fieldset class="asked-one">
          <legend>{question.question}</legend>
          <div class="answer-keys">
            {question.choices
              .filter(({ id }) => left.some((system) => system.answers.includes(id)))
              .map(({ id, label }) => (
                <button
                  key={id}
                  type="button"
                  class="answer-key"
                  onClick={() => setAnswers([...answers, [at, id]])}
                >
                  <b>{label}</b>
                </button>
              ))}
            <button
              type="button"
              class="answer-key"
              onClick={() => setAnswers([...answers, [at, UNKNOWN]])}
            >
              Don’t know
            </button>
          </div>
        </fieldset>
      ) : (
        <ul class="pick-list">
          {left.map((system) => (
            <li key={system.id}>
              <button type="button" onClick={() => onPick(system)}>
                <strong>{system.title}</strong>
                {system.recognise.map((line) => (
                  <span key={line} class="quiet">
                    {line}
                  </span>
                ))}
              </button>
            </li>
          ))}
        </ul>
      )}
      <ByName systems={systems} onPick={onPick} />
    </section>
  );
}

/** Every system of the reference, for one who knows what it is called. */
function ByName({ systems, onPick }: { systems: Choices['systems'] } & Pick<Props, 'onPick'>) {
  const [query, setQuery] = useState('');
  const found = systemsFor(systems, query);
  return (
    <details class="fold">
      <summary>
        <b>By its name</b> <span class="quiet">all {systems.length}</span>
      </summary>
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
        {found.map((system) => (
          <li key={system.id}>
            <button type="button" onClick={() => onPick(system)}>
              <strong>{system.title}</strong>
              <span class="quiet">{system.summary}</span>
            </button>
          </li>
        ))}
      </ul>
      <p>
        <a href={href('/systems/')}>All systems, with what each is recognised by</a>
      </p>
    </details>
  );
}
