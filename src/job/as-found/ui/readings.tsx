import { certaintyText } from '../../../published/index.ts';
import { AnswerMark } from '../../ui/answer-mark.tsx';
import { href } from '../../ui/parts.tsx';
import type { FoundDesk, FoundState } from '../desk.ts';
import type { Stand } from '../result.ts';

interface Props {
  readonly desk: FoundDesk;
  readonly state: FoundState;
}

const WORDS: Readonly<Record<Stand, string>> = {
  entry: 'As drawn, and as marked too',
  explained: 'Explained by what you marked',
  against: 'Speaks against what you marked',
  neither: 'Not explained',
  refused: 'Not on the drawing: left out',
};

/** The readings of a job against both circuits, and the mistakes they speak for. */
export function Readings({ desk, state }: Props) {
  const { result, readings, job, suggestions } = state;
  if (readings.length === 0 || !result) return null;
  const count = (stand: Stand) => result.readings.filter((one) => one.stand === stand).length;
  return (
    <section aria-labelledby="readings-title">
      <h2 id="readings-title">Readings that were taken</h2>
      {job && (
        <p>
          From the job <a href={`${href('/job/')}#${job.id}`}>{job.title}</a>.
        </p>
      )}
      <p role="status">
        {count('explained')} explained by what you marked, {count('neither') + count('against')}{' '}
        not.
      </p>
      <ul class="stand-list">
        {result.readings.map((one, i) => (
          <li key={`${i} ${one.subject}`} class={`stand-${one.stand}`}>
            <div class="core-head">
              <span>
                <b class="point">{one.subject}</b> <span class="quiet">{one.mode}</span>
              </span>
              <AnswerMark answer={one.answer} text={one.text} />
            </div>
            <b class="block">{WORDS[one.stand]}</b>
            {one.stand !== 'refused' && (
              <span class="quiet block">
                Entry: {one.due}. As marked: {one.found}.
              </span>
            )}
          </li>
        ))}
      </ul>
      {suggestions.length > 0 && (
        <div class="suggestions">
          <h3>Wiring mistakes that they speak for</h3>
          <ul class="stand-list">
            {suggestions.map(({ title, share, found }) => (
              <li key={title}>
                <div class="core-head">
                  <b>{title}</b>
                  <span class="share">{certaintyText(share)}</span>
                </div>
                <button type="button" class="plain" onClick={() => desk.mark(() => found)}>
                  Mark it as found<span class="unseen">: {title}</span>
                </button>
              </li>
            ))}
          </ul>
          <p class="quiet">
            Ranked among all faults by the readings alone. Look before you believe it, isolated and
            proved dead.
          </p>
        </div>
      )}
    </section>
  );
}
