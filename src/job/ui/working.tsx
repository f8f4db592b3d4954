import { useEffect, useState } from 'preact/hooks';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import { type Job, openEntries } from '../job.ts';
import type { Sheet } from '../sheet.ts';
import { clauseText } from '../words.ts';

/** Choosing that takes longer than this is said, ms: the act of before stands until then. */
const LONG_MS = 400;

/** Whether something has been so for long. */
export function useLong(so: boolean): boolean {
  const [long, setLong] = useState(false);
  useEffect(() => {
    setLong(false);
    if (!so) return;
    const timer = setTimeout(() => setLong(true), LONG_MS);
    return () => clearTimeout(timer);
  }, [so]);
  return so && long;
}

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
}

/** While the next act is worked out: what at, what stands against the rest, what can be done meanwhile. */
export function Working({ desk, state: { findings }, job, sheet }: Props) {
  const seeking = findings?.wantsPairs === true && !findings.withPairs;
  const doubted = openEntries(job).filter(({ id }) => findings?.doubted.includes(id));
  return (
    <section class="panel" aria-labelledby="next-title" aria-busy="true">
      <h2 id="next-title">Working it out</h2>
      <p role="status" class="next-what">
        {seeking ? 'No single fault explains it all' : 'Choosing the next test.'}
      </p>
      {seeking && <p>Two at once are tried now: some seconds.</p>}
      {!seeking && sheet.composed && (
        <p>What can be wrong in this arrangement is worked out here and now.</p>
      )}
      {seeking && doubted.length > 0 && (
        <p>
          Against the rest stands:{' '}
          {doubted.map(({ observation }) => clauseText(sheet, observation)).join('; ')}.
        </p>
      )}
      {job.entries.length > 0 && (
        <button type="button" class="plain" onClick={() => desk.turn({ view: 'readings' })}>
          Put one right, or enter another
        </button>
      )}
    </section>
  );
}
