import { useMemo } from 'preact/hooks';
import { answerWord } from '../../diagnosis/inference/index.ts';
import { certaintyText } from '../../published/index.ts';
import type { Desk, DeskState } from '../desk.ts';
import type { FoundRepair } from '../findings.ts';
import { addRepair, type Job, openEntries } from '../job.ts';
import { itemIn, type Sheet } from '../sheet.ts';
import { repairText } from '../standing.ts';
import { capital } from '../words.ts';
import { Drawing, type Mark } from './drawing.tsx';
import { Caution, href } from './parts.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
  readonly repair: FoundRepair;
  /** Whether it is found; else it is shown because the reader goes with it. */
  readonly found: boolean;
  readonly onTestOn: () => void;
}

/** What is wrong, once it is found: what, why, the repair, who may do it, what stays live. */
export function Found({ desk, job, sheet, repair, found, onTestOn }: Props) {
  const top = repair.causes[0]!;
  const marks = useMemo(() => marksOf(job), [job]);
  const stays = staysLive(sheet);
  return (
    <section class="panel found" aria-labelledby="next-title">
      <h2 id="next-title">{found ? 'Found' : 'Not found for certain'}</h2>
      <p class="next-what">{top.title}</p>
      <p class="quiet">{capital(certaintyText(repair.share))}.</p>
      <p>{repair.because}</p>
      {repair.against !== '' && <p class="against-it">{repair.against}</p>}
      {top.hazard && <Caution>{top.hazard}</Caution>}
      {repair.asItIs ? (
        <p>{repair.repair}</p>
      ) : (
        <>
          <Caution>
            <a href={href('/procedures/safe-isolation/')}>Isolate, lock off and prove dead</a>{' '}
            first.
            {stays !== '' && ` Still live then: ${stays}.`}
          </Caution>
          <p>{repair.repair}</p>
          {repair.who.length > 0 && <p>By: {repair.who.join(', ')}.</p>}
        </>
      )}
      <button
        type="button"
        class="main-act"
        onClick={() => {
          desk.act((now) => addRepair(now, repairText(repair, found)));
          desk.turn({ view: 'record' });
        }}
      >
        {repair.asItIs ? 'Put right: go on to proving' : 'Repaired: go on to proving'}
      </button>
      {marks.size > 0 && (
        <details class="fold">
          <summary>
            <b>On the diagram</b> <span class="quiet">up to where it reads live</span>
          </summary>
          <Drawing
            system={sheet.id}
            hint="Black: read live. White: no volts. Dashed: part volts."
            marks={marks}
          />
        </details>
      )}
      <button type="button" class="quiet-button" onClick={onTestOn}>
        {found ? 'Test on, to make sure' : 'Test on'}
      </button>
    </section>
  );
}

/** What was read live and what was not, by the terminal that the first probe was on. */
export function marksOf(job: Job): Map<string, Mark> {
  return new Map(
    openEntries(job).flatMap(({ observation }) => {
      if (observation.kind !== 'live') return [];
      const word = answerWord(observation);
      const mark =
        word === 'live' || word === 'dc' ? 'live' : word === 'between' ? 'other' : 'dead';
      return [[observation.from, mark] as const];
    }),
  );
}

/** Terminals that the system's own isolator leaves joined to the supply. */
function staysLive(sheet: Sheet): string {
  const left = sheet.items.flatMap(({ ref, points }) => {
    const names = points
      .filter(({ joined, dead, carries }) => joined && !dead && carries !== 'earth')
      .map(({ name }) => name);
    return names.length === 0 ? [] : [`${names.join(' and ')} of the ${titleOf(sheet, ref)}`];
  });
  return left.join('; ');
}

const titleOf = (sheet: Sheet, ref: string) => {
  const title = itemIn(sheet, ref)?.title ?? ref;
  return title.charAt(0).toLowerCase() + title.slice(1);
};
