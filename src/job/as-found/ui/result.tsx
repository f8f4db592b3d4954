import type { ComponentChildren } from 'preact';
import { AnswerMark } from '../../ui/answer-mark.tsx';
import { href } from '../../ui/parts.tsx';
import type { FoundState } from '../desk.ts';
import type { FoundResult, SaidMode } from '../result.ts';

/** What follows from the marks: dangers first, then differences, what it does, what to change. */
export function Result({ state }: { readonly state: FoundState }) {
  const { result, working } = state;
  return (
    <section id="result" class="found-result" aria-labelledby="result-title" tabindex={-1}>
      <h2 id="result-title">What follows</h2>
      <p role="status" class="quiet">
        {working ? 'Working it out.' : result ? summary(result) : ''}
      </p>
      {result && result.differences.length > 0 && (
        <>
          <Dangers result={result} />
          <h3>Not as drawn</h3>
          <ul class="difference-list">
            {result.differences.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
          <Modes modes={result.modes} />
          {result.hazards.length > 0 && (
            <p>
              <b>What still works is no reason to leave it on:</b> the dangers stand above.
            </p>
          )}
          <Changes result={result} />
        </>
      )}
    </section>
  );
}

function summary({ differences, modes }: FoundResult): string {
  if (differences.length === 0) return 'Wired as drawn: nothing is marked.';
  const changed = modes.filter(isChanged).length;
  return changed === 0
    ? 'No outcome and no listed reading shows it: only a look finds it.'
    : `It shows in ${changed} of ${modes.length} modes.`;
}

const isChanged = ({ changed, readings, blown }: SaidMode) =>
  changed.length > 0 || readings.length > 0 || blown.length > 0;

const Dangers = ({ result: { hazards } }: { readonly result: FoundResult }) =>
  hazards.length === 0 ? (
    <p>
      None of the dangers looked for is among them. That is no proof of safety: prove dead before
      anything is touched.
    </p>
  ) : (
    <>
      <h3>Dangers, gravest first</h3>
      <ol class="danger-list">
        {hazards.map(({ kind, title, advice }) => (
          <li key={`${kind} ${title}`} class="caution">
            <strong class="caution-word">{title}</strong>
            <span class="block">{advice}</span>
          </li>
        ))}
      </ol>
    </>
  );

const Modes = ({ modes }: { readonly modes: readonly SaidMode[] }) => {
  const same = modes.filter((mode) => !isChanged(mode));
  return (
    <>
      <h3>What it does</h3>
      {modes.filter(isChanged).map((mode) => (
        <ModeBlock key={mode.id} mode={mode} />
      ))}
      {same.length > 0 && (
        <p>
          <b>As drawn:</b> {same.map(({ title }) => title).join(', ')}.
        </p>
      )}
    </>
  );
};

function ModeBlock({
  mode: { title, changed, works, readings, blown },
}: {
  readonly mode: SaidMode;
}) {
  return (
    <details class="mode-block">
      <summary>
        <b>{title}</b>
        <span class="quiet">
          {changed.length > 0
            ? `${changed.length} seen otherwise`
            : `${readings.length} read otherwise`}
        </span>
      </summary>
      {blown.length > 0 && <p>Open in it: {blown.join(', ')}.</p>}
      {changed.length > 0 && (
        <PairTable
          caption={`Seen otherwise in ${title}`}
          subject="Item"
          rows={changed.map(({ subject, due, found }) => ({ subject, due, found: <b>{found}</b> }))}
        />
      )}
      <p>
        <b>Still works:</b> {works.length > 0 ? `${works.join(', ')}.` : 'nothing that is seen.'}
      </p>
      {readings.length > 0 && (
        <details class="figure">
          <summary>Readings that differ: {readings.length}</summary>
          <p class="quiet">
            On the two-pole tester, worked out and not to be gone and taken: what is measured live
            is measured by a competent person, with{' '}
            <a href={href('/procedures/live-tests/')}>its cautions</a>.
          </p>
          <PairTable
            caption={`Read otherwise in ${title}`}
            subject="Between"
            rows={readings.map(({ subject, due, found }) => ({
              subject,
              due: <AnswerMark answer={due.answer} text={due.text} />,
              found: <AnswerMark answer={found.answer} text={found.text} />,
            }))}
          />
        </details>
      )}
    </details>
  );
}

interface PairTableProps {
  readonly caption: string;
  /** Heading of what each row is about. */
  readonly subject: string;
  readonly rows: readonly {
    readonly subject: string;
    readonly due: ComponentChildren;
    readonly found: ComponentChildren;
  }[];
}

/** What the entry says beside what was found; stacked rows on a phone. */
const PairTable = ({ caption, subject, rows }: PairTableProps) => (
  <table class="pair-table stack">
    <caption class="unseen">{caption}</caption>
    <thead>
      <tr>
        <th scope="col">{subject}</th>
        <th scope="col">Entry</th>
        <th scope="col">As found</th>
      </tr>
    </thead>
    <tbody>
      {rows.map((row, i) => (
        <tr key={`${row.subject} ${i}`}>
          <th scope="row">{row.subject}</th>
          <td data-label="Entry">{row.due}</td>
          <td data-label="As found">{row.found}</td>
        </tr>
      ))}
    </tbody>
  </table>
);

const Changes = ({ result: { changes, othersCovers } }: { readonly result: FoundResult }) => (
  <>
    <h3>To wire it as drawn</h3>
    <ol class="change-list">
      <li>
        Isolate, lock off, and prove dead with a tester proved before and after:{' '}
        <a href={href('/procedures/safe-isolation/')}>safe isolation</a>
      </li>
      {changes.map((text) => (
        <li key={text}>{text}</li>
      ))}
      <li>
        Before the supply is put on, the <a href={href('/procedures/dead-tests/')}>dead tests</a>.
        Then every mode is proved, safety devices by making them act
      </li>
    </ol>
    {othersCovers.length > 0 && (
      <p>
        Not a controls engineer’s to open: <b>{othersCovers.join(', ')}</b>.
      </p>
    )}
    <p class="quiet">
      What stands here brings the wiring back to the drawing. The manufacturer’s instructions and
      local rules come before it, and an arrangement that was meant so may need another drawing
      instead.
    </p>
  </>
);
